# Run at every build: writes STAMP, a header with the version and the commit that is being built, only when they have
# changed. Called with -DSOURCE= -DVERSION= -DSTAMP=.
execute_process(COMMAND git -C ${SOURCE} rev-parse --short=12 HEAD
                OUTPUT_VARIABLE commit OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
if(NOT commit)
  set(commit "unknown")
else()
  # Files that git does not know do not count: results and notes lie about in any checkout.
  execute_process(COMMAND git -C ${SOURCE} diff-index --quiet HEAD -- RESULT_VARIABLE changed ERROR_QUIET)
  if(changed)
    string(APPEND commit "+changes")
  endif()
endif()
set(text "#define DULLCAST_VERSION \"${VERSION}\"\n#define DULLCAST_COMMIT \"${commit}\"\n")
set(before "")
if(EXISTS ${STAMP})
  file(READ ${STAMP} before)
endif()
if(NOT before STREQUAL text)
  file(WRITE ${STAMP} "${text}")
endif()
