# What is installed, and the Debian package made of it (cpack -G DEB). Its date is that of the release, so that two
# builds of one version are the same byte for byte.
set(FOGPROOF_RELEASED "Wed, 25 Nov 2026 12:00:00 +0000")
set(FOGPROOF_MAINTAINER "The fogproof authors <fogproof@localhost.localdomain>" CACHE STRING
    "Who answers for the Debian package: name and address of whoever builds it for others")

option(FOGPROOF_PORTABLE "Make an archive that brings its libraries and typefaces (cpack -G TGZ)" OFF)
if(FOGPROOF_PORTABLE)
  # RPATH, not RUNPATH: it holds for what the libraries need too.
  set_target_properties(fogproof PROPERTIES INSTALL_RPATH "\$ORIGIN/../lib")
  target_link_options(fogproof PRIVATE -Wl,--disable-new-dtags)
  install(TARGETS fogproof RUNTIME_DEPENDENCY_SET libraries RUNTIME COMPONENT program)
  # Those of the C library come with the system that the archive is unpacked on.
  install(RUNTIME_DEPENDENCY_SET libraries PRE_EXCLUDE_REGEXES "^ld-linux" "^lib(c|m|dl|rt|pthread|resolv)\\.so"
          LIBRARY DESTINATION lib COMPONENT program)
  set(typefaces /usr/share/fonts/truetype/dejavu)
  install(FILES src/package/fonts.conf ${typefaces}/DejaVuSans.ttf ${typefaces}/DejaVuSans-Bold.ttf
          DESTINATION share/fogproof/fonts COMPONENT program)
  install(CODE "execute_process(COMMAND ${PROJECT_SOURCE_DIR}/src/package/licences.sh \$ENV{DESTDIR}\${CMAKE_INSTALL_PREFIX} COMMAND_ERROR_IS_FATAL ANY)"
          COMPONENT program)
else()
  install(TARGETS fogproof COMPONENT program)
endif()

# Written by the program itself, from the same source as --help.
set(words ${PROJECT_BINARY_DIR}/words)
add_custom_command(OUTPUT ${words}/done
  COMMAND ${CMAKE_COMMAND} -E rm -rf ${words}
  COMMAND ${CMAKE_COMMAND} -E make_directory ${words}/man
  COMMAND fogproof --quiet manual ${words}/man
  COMMAND sh -c "gzip -9n ${words}/man/*.1"
  COMMAND sh -c "$<TARGET_FILE:fogproof> completion bash >${words}/fogproof"
  COMMAND sh -c "$<TARGET_FILE:fogproof> completion zsh >${words}/_fogproof"
  COMMAND sh -c "$<TARGET_FILE:fogproof> completion fish >${words}/fogproof.fish"
  COMMAND sh -c "gzip -9nc ${PROJECT_BINARY_DIR}/changelog.Debian >${words}/changelog.Debian.gz"
  COMMAND ${CMAKE_COMMAND} -E touch ${words}/done
  DEPENDS fogproof VERBATIM)
add_custom_target(fogproof_words ALL DEPENDS ${words}/done)
configure_file(src/package/changelog.in ${PROJECT_BINARY_DIR}/changelog.Debian @ONLY)

install(DIRECTORY ${words}/man/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${words}/fogproof DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES ${words}/_fogproof DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions COMPONENT program)
install(FILES ${words}/fogproof.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d
        COMPONENT program)
install(FILES README.md src/package/copyright TYPE DOC COMPONENT program)
if(NOT FOGPROOF_PORTABLE)
  install(FILES ${words}/changelog.Debian.gz TYPE DOC COMPONENT program)
  install(FILES src/package/lintian-overrides DESTINATION ${CMAKE_INSTALL_DATADIR}/lintian/overrides RENAME fogproof
          COMPONENT program)
endif()

# The library for programs of others.
include(CMakePackageConfigHelpers)
set(cmake_folder ${CMAKE_INSTALL_LIBDIR}/cmake/fogproof)
install(TARGETS fogproof_core fogproof_imaging EXPORT fogproofTargets COMPONENT library)
install(DIRECTORY include/fogproof TYPE INCLUDE COMPONENT library)
install(EXPORT fogproofTargets NAMESPACE fogproof:: DESTINATION ${cmake_folder} COMPONENT library)
configure_package_config_file(src/package/fogproofConfig.cmake.in fogproofConfig.cmake
                              INSTALL_DESTINATION ${cmake_folder})
write_basic_package_version_file(fogproofConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/fogproofConfig.cmake ${PROJECT_BINARY_DIR}/fogproofConfigVersion.cmake
        DESTINATION ${cmake_folder} COMPONENT library)
# From where the file lies, so that the tree may be installed anywhere.
file(RELATIVE_PATH up_to_prefix /${CMAKE_INSTALL_LIBDIR}/pkgconfig /)
configure_file(src/package/fogproof.pc.in fogproof.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/fogproof.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig COMPONENT library)

set(CPACK_GENERATOR DEB)
set(CPACK_ARCHIVE_COMPONENT_INSTALL ON)
set(CPACK_SYSTEM_NAME ${CMAKE_SYSTEM_NAME}-${CMAKE_SYSTEM_PROCESSOR})
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_ALL program)
set(CPACK_COMPONENTS_GROUPING ALL_COMPONENTS_IN_ONE)
if(FOGPROOF_PORTABLE)
  set(CPACK_GENERATOR TGZ)
  set(CPACK_COMPONENT_INCLUDE_TOPLEVEL_DIRECTORY ON)
  set(CPACK_PACKAGING_INSTALL_PREFIX /)
else()
  set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
endif()
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
    WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_MAINTAINER ${FOGPROOF_MAINTAINER})
set(CPACK_DEBIAN_PACKAGE_SECTION graphics)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS fonts-dejavu-core)
if(FOGPROOF_OPENS_VIPS)
  # dpkg-shlibdeps sees only what the program is linked with.
  find_program(DPKG_QUERY dpkg-query)
  if(DPKG_QUERY)
    list(GET VIPS_LINK_LIBRARIES 0 vips_path)
    cmake_path(GET vips_path PARENT_PATH vips_folder)
    execute_process(COMMAND ${DPKG_QUERY} --search ${vips_folder}/${vips_library} OUTPUT_VARIABLE vips_package)
    string(REGEX REPLACE ":.*" "" vips_package "${vips_package}")
    string(APPEND CPACK_DEBIAN_PACKAGE_DEPENDS ", ${vips_package} (>= 8.14)")
  endif()
endif()
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "Takes a scanned negative and a description of one pack of black-and-white
paper, computes what the print will look like after exposure, filter,
restrainer, bleach and redevelopment, and draws colour-managed proofs. It
measures packs from test strips, proposes recipes with their uncertainty
and writes worksheets for the darkroom.")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "print previews and recipes for fogged darkroom paper")
include(CPack)
