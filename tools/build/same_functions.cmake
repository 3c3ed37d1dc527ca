# One set of mathematical functions for every machine. The C library's own exp, pow, sin and so on are correct to about
# the last digit, but which last digit it is depends on the processor (it picks code by what the processor can do) and on
# the library. Long runs carry that into the eighth digit of a wear flat. Those of musl, a C library for Debian's and other
# systems, are plain C; Emscripten's C library has the same, so that a page in a browser gives the program's numbers to the
# last bit. They are taken out of musl's archive and linked before all else. Where musl is not, the machine's own serve.
option(DULLCAST_SAME_FUNCTIONS "Take mathematical functions from musl, for the same numbers on every machine" ON)
if(NOT DULLCAST_SAME_FUNCTIONS)
  return()
endif()
find_library(DULLCAST_MUSL libc.a PATHS /usr/lib/x86_64-linux-musl /usr/lib/aarch64-linux-musl /usr/lib/musl/lib NO_DEFAULT_PATH)
if(NOT DULLCAST_MUSL)
  message(STATUS "musl is not here: results may differ from other machines' in their last digits")
  return()
endif()
set(functions exp exp2 expm1 log log2 log10 log1p pow cbrt hypot sin cos sincos tan asin acos atan atan2 sinh cosh tanh atanh
    erf tgamma
    # and what they are made of
    exp_data log_data log2_data pow_data __sin __cos __tan __rem_pio2 __rem_pio2_large __expo2 __math_divzero
    __math_invalid __math_oflow __math_uflow __math_xflow)
set(folder ${CMAKE_BINARY_DIR}/same_functions)
set(same_functions ${folder}/libsame_functions.a)
if(NOT EXISTS ${same_functions})
  file(MAKE_DIRECTORY ${folder})
  list(TRANSFORM functions APPEND .lo OUTPUT_VARIABLE objects)
  execute_process(COMMAND ${CMAKE_AR} x ${DULLCAST_MUSL} ${objects} WORKING_DIRECTORY ${folder} COMMAND_ERROR_IS_FATAL ANY)
  execute_process(COMMAND ${CMAKE_AR} crs ${same_functions} ${objects} WORKING_DIRECTORY ${folder}
                  COMMAND_ERROR_IS_FATAL ANY)
endif()
# Whole, and before libraries that bring the machine's own along.
add_link_options("SHELL:-Wl,--whole-archive ${same_functions} -Wl,--no-whole-archive")
