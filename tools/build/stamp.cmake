# Run at every build: writes STAMP, a header with the version, the commit that is being built and its day, only when they have
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
execute_process(COMMAND git -C ${SOURCE} log -1 --format=%cs
                OUTPUT_VARIABLE day OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
if(NOT day)
  string(TIMESTAMP day "%Y-%m-%d" UTC)
endif()
set(text "#define DULLCAST_VERSION \"${VERSION}\"\n#define DULLCAST_COMMIT \"${commit}\"\n#define DULLCAST_DAY \"${day}\"\n")
set(before "")
if(EXISTS ${STAMP})
  file(READ ${STAMP} before)
endif()
if(NOT before STREQUAL text)
  file(WRITE ${STAMP} "${text}")
endif()
