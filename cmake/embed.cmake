# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0

# castplan_embed(layer namespace glob): builds text files into the program. Generates <namespace>.hpp with one row a
# file: `namespace castplan_species { struct File { std::string_view name, text; }; std::span<const File> files(); }`.
function(castplan_embed layer space glob)
  file(GLOB files CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${glob})
  list(SORT files)
  set(folder ${PROJECT_BINARY_DIR}/embedded/${layer})
  set(header ${folder}/${space}.hpp)
  set(source ${folder}/${space}.cpp)
  add_custom_command(
    OUTPUT ${header} ${source}
    COMMAND ${CMAKE_COMMAND} -DSPACE=${space} -DHEADER=${header} -DSOURCE=${source} "-DFILES=${files}"
            -P ${PROJECT_SOURCE_DIR}/cmake/embed_files.cmake
    DEPENDS ${files} ${PROJECT_SOURCE_DIR}/cmake/embed_files.cmake
    COMMENT "Building text files into ${layer}" VERBATIM)
  target_sources(castplan_${layer} PRIVATE ${source} ${header})
  target_include_directories(castplan_${layer} PRIVATE ${folder})
endfunction()
