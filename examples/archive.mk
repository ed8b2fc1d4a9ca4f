# SPDX-License-Identifier: MIT
# Prints all scans of a list in N parts by make, which remembers the parts that are done: after an interruption the
# same command goes on where it stopped, and a changed list or pack prints anew.
#     make -f archive.mk -j 2 N=8 LIST=scans.txt PACK=pack.toml FOLDER=prints RECIPE='--grade 3'
FOGPROOF ?= fogproof
N ?= 8
LIST ?= scans.txt
PACK ?= pack.toml
FOLDER ?= prints
RECIPE ?=

done := $(foreach k,$(shell seq $(N)),$(FOLDER)/.part-$(k)-of-$(N))

all: $(done)

$(FOLDER)/.part-%-of-$(N): $(LIST) $(PACK)
	@mkdir -p $(FOLDER)
	$(FOGPROOF) print --list $(LIST) --shard $*/$(N) --jobs 1 --pack $(PACK) -o $(FOLDER) --force $(RECIPE)
	@touch $@

.PHONY: all
