# What `cmake --install` puts in place besides the program: libraries, headers, the package for find_package(hatring),
# configs, documents. Man page and completions: tools/docs/CMakeLists.txt.
include(CMakePackageConfigHelpers)

# One name for all rooms. Its target is not called hatring, which is the program.
add_library(hatring_library INTERFACE)
add_library(hatring::hatring ALIAS hatring_library)
set_target_properties(hatring_library PROPERTIES EXPORT_NAME hatring)
get_property(rooms GLOBAL PROPERTY HATRING_ROOMS)
foreach(room IN LISTS rooms)
  target_link_libraries(hatring_library INTERFACE hatring_${room})
  install(TARGETS hatring_${room} EXPORT hatringTargets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
endforeach()
install(TARGETS hatring_library EXPORT hatringTargets)

# Headers include each other from the top of the source tree: "sim/answer/run.hpp".
install(DIRECTORY models sim DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/hatring FILES_MATCHING PATTERN "*.hpp")

set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/hatring)
configure_package_config_file(tools/cmake/hatringConfig.cmake.in ${PROJECT_BINARY_DIR}/hatringConfig.cmake
                              INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/hatringConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/hatringConfig.cmake ${PROJECT_BINARY_DIR}/hatringConfigVersion.cmake
              tools/cmake/HatringDependencies.cmake
        DESTINATION ${package_dir})
install(EXPORT hatringTargets NAMESPACE hatring:: DESTINATION ${package_dir})

install(DIRECTORY configs DESTINATION ${CMAKE_INSTALL_DATADIR}/hatring)
install(DIRECTORY docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR})
