# add_stage(NAME USES stage... [PRIVATE target...]): one folder, one static library fw_NAME.
# It sees the headers of the stages it names and of those they name; nothing else is linked, so a forbidden
# include fails to link and tools/check_layers.py reports it by name. Files *_test.cpp are its unit tests.
function(add_stage name)
    cmake_parse_arguments(ARG "" "" "USES;PRIVATE" ${ARGN})
    file(GLOB sources CONFIGURE_DEPENDS *.cpp)
    set(tests ${sources})
    list(FILTER sources EXCLUDE REGEX "_test\\.cpp$")
    list(FILTER tests INCLUDE REGEX "_test\\.cpp$")
    add_library(fw_${name} STATIC ${sources})
    target_include_directories(fw_${name} PUBLIC ${CMAKE_SOURCE_DIR}/core ${CMAKE_SOURCE_DIR})
    foreach(used ${ARG_USES})
        target_link_libraries(fw_${name} PUBLIC fw_${used})
    endforeach()
    target_link_libraries(fw_${name} PRIVATE ${ARG_PRIVATE})
    if(name IN_LIST FALLWRIGHT_FAST)
        target_compile_options(fw_${name} PRIVATE -O2)
    endif()
    if(EMSCRIPTEN)
        # No stage throws or catches; only the border does, for a failed allocation. The code that would put things away
        # on the way there is an eighth of the module.
        target_compile_options(fw_${name} PRIVATE -fno-exceptions)
    endif()
    if(FALLWRIGHT_TESTS AND tests)
        set_property(GLOBAL APPEND PROPERTY FALLWRIGHT_UNIT_TESTS ${tests})
        set_property(GLOBAL APPEND PROPERTY FALLWRIGHT_TESTED fw_${name})
    endif()
endfunction()
