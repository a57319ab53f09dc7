# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
include(CMakePackageConfigHelpers)

get_property(layers GLOBAL PROPERTY CASTPLAN_LAYERS)
list(TRANSFORM layers PREPEND castplan_)
install(TARGETS ${layers} castplan EXPORT castplanTargets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(TARGETS castplan_program RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY include/castplan DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(DIRECTORY src/write/schema DESTINATION ${CMAKE_INSTALL_DATADIR}/castplan)

set(config ${CMAKE_INSTALL_LIBDIR}/cmake/castplan)
install(EXPORT castplanTargets NAMESPACE castplan:: DESTINATION ${config})
configure_package_config_file(cmake/castplanConfig.cmake.in ${PROJECT_BINARY_DIR}/castplanConfig.cmake
                              INSTALL_DESTINATION ${config})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/castplanConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/castplanConfig.cmake ${PROJECT_BINARY_DIR}/castplanConfigVersion.cmake
              DESTINATION ${config})
