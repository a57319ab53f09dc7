# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0

# What a null or crooked reference does, the address sanitizer sees when it is used; asking before every use costs a
# quarter of the time to build.
set(castplan_sanitizers -fsanitize=address,undefined -fno-sanitize=null,alignment,vptr,object-size)

function(castplan_warnings target)
  target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
    # a false alarm of g++ 12 on "text" + std::string (GCC bug 105651)
    target_compile_options(${target} PRIVATE -Wno-restrict)
  endif()
  if(CASTPLAN_WERROR)
    target_compile_options(${target} PRIVATE -Werror)
  endif()
  # no contraction: results must be the same on every machine
  target_compile_options(${target} PUBLIC $<BUILD_INTERFACE:-ffp-contract=off>)
  # errno and floating-point flags are never read here; keeping them would keep the row kernels from being vectorised
  target_compile_options(${target} PRIVATE -fno-math-errno -fno-trapping-math)
  if(CASTPLAN_SANITIZE)
    target_compile_options(${target} PUBLIC "$<BUILD_INTERFACE:${castplan_sanitizers}>"
                                            $<BUILD_INTERFACE:-fno-sanitize-recover=all>)
    target_link_options(${target} PUBLIC $<BUILD_INTERFACE:-fsanitize=address,undefined>)
  endif()
endfunction()

# castplan_layer(name [USES lower...] [LINK libraries...]): one static library from src/<name>, exported as
# castplan::<name>. Third-party libraries stay private: none of them stands in a public header.
function(castplan_layer name)
  cmake_parse_arguments(LAYER "" "" "USES;LINK" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/${name}/*.cpp)
  add_library(castplan_${name} STATIC ${sources})
  add_library(castplan::${name} ALIAS castplan_${name})
  set_target_properties(castplan_${name} PROPERTIES EXPORT_NAME ${name})
  target_include_directories(castplan_${name} PUBLIC $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/include>
                                                     $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>
                                              PRIVATE ${PROJECT_SOURCE_DIR}/src)
  target_compile_features(castplan_${name} PUBLIC cxx_std_20)
  target_compile_definitions(castplan_${name} PRIVATE CASTPLAN_VERSION="${PROJECT_VERSION}")
  list(TRANSFORM LAYER_USES PREPEND castplan_)
  target_link_libraries(castplan_${name} PUBLIC ${LAYER_USES} PRIVATE ${LAYER_LINK})
  castplan_warnings(castplan_${name})
  # Reading the standard library's headers costs a quarter of this build. A compiler cache does better without, and
  # where warnings are errors g++ would warn of those headers.
  if(CASTPLAN_SANITIZE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
    target_precompile_headers(castplan_${name} PRIVATE <algorithm> <cmath> <functional> <map> <memory> <optional>
                                                       <string> <vector> <fmt/format.h>)
  endif()
  set_property(GLOBAL APPEND PROPERTY CASTPLAN_LAYERS ${name})
endfunction()
