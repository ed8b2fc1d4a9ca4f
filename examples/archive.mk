# SPDX-License-Identifier: MIT
# Prints all scans of a list in N parts by make, which remembers the parts that are done: after an interruption the
# same command goes on where it stopped, and a changed list or pack prints anew. Names may hold blanks.
#     make -f archive.mk -j 2 N=8 LIST=scans.txt PACK=pack.toml FOLDER=prints RECIPE='--grade 3'
FOGPROOF ?= fogproof
N ?= 8
LIST ?= scans.txt
PACK ?= pack.toml
FOLDER ?= prints
RECIPE ?=

# Make parts names at blanks unless a backslash stands before them.
nothing :=
blank := $(nothing) $(nothing)
whole = $(subst $(blank),\$(blank),$(1))

done := $(foreach k,$(shell seq $(N)),$(call whole,$(FOLDER))/.part-$(k)-of-$(N))

all: $(done)

$(done): $(call whole,$(LIST)) $(call whole,$(PACK))
	@mkdir -p "$(FOLDER)"
	part="$@"; part="$${part##*/.part-}"; $(FOGPROOF) print --list "$(LIST)" --shard "$${part%%-of-*}/$(N)" --jobs 1 --pack "$(PACK)" -o "$(FOLDER)" --force $(RECIPE)
	@touch "$@"

.PHONY: all
