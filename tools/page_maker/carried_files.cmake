# Files of tools/pages that the program carries in itself, so that it needs no folder beside it. A page that is added
# names its files here; an assembler's .incbin puts them in, and a changed file compiles the generated source anew.
set(DULLCAST_PAGE_FILES
  parts/style.css
  parts/units.js
  parts/colours.js
  parts/rock_patterns.js
  parts/save_figure.js
  parts/figure_size.js
  parts/run_rows.js
  parts/track_list.js
  parts/track_drawing.js
  parts/track_input.js
  parts/tracks.js
  parts/bit_shapes.js
  parts/cutter_view.js
  parts/bit_view.js
  parts/life_chart.js
  parts/sweep_charts.js
  parts/window_map.js
  parts/shop_days.js
  parts/shop_charts.js
  parts/shell.js
  parts/card.css
  parts/card.js
  card/card.html
  card/card_page.js
  report/report.html
  report/sweep_report.js
  report/shop_tables.js
  report/shop_report.js
  report/shop.css
  report/report.js
  third_party/d3/LICENSE
  third_party/d3/d3.min.js
  parts/engine.js
  engine/program.js
  engine/program.wasm.gz
  lesson/lesson.html
  lesson/lesson.css
  lesson/lesson.yaml
  lesson/words.js
  lesson/charts.js
  lesson/scenes.js
  lesson/findings.js
  lesson/controls.js
  lesson/runs.js
  lesson/telling.js
  lesson/lesson_chart.js
  lesson/player.js
  lesson/handout.js
  lesson/lesson.js
  what_if/what_if.html
  what_if/what_if.css
  what_if/fields.js
  what_if/resolved.js
  what_if/places.js
  what_if/form.js
  what_if/results.js
  what_if/what_if.js
)

set(pages ${PROJECT_SOURCE_DIR}/tools/pages)
set(text "// Made by tools/page_maker/carried_files.cmake.\n#include \"tools/page_maker/carried_files.hpp\"\n")
set(table "")
set(number 0)
set(whole "")
foreach(file ${DULLCAST_PAGE_FILES})
  set(name dullcast_page_file_${number})
  string(APPEND text
    "__asm__(\".pushsection .rodata\\n.globl ${name}, ${name}_end\\n${name}: .incbin \\\"${pages}/${file}\\\"\\n"
    "${name}_end: .byte 0\\n.popsection\\n\");\nextern \"C\" const char ${name}[], ${name}_end[];\n")
  string(APPEND table "    {\"${file}\", ${name}, ${name}_end},\n")
  list(APPEND whole ${pages}/${file})
  math(EXPR number "${number} + 1")
endforeach()
string(APPEND text "namespace dullcast::page_maker {\nconst CarriedFile carried_files[] = {\n${table}};\n"
                   "const std::size_t carried_count = ${number};\n}\n")
file(GENERATE OUTPUT ${CMAKE_BINARY_DIR}/page_files.cpp CONTENT "${text}")
target_sources(dullcast_page_maker PRIVATE ${CMAKE_BINARY_DIR}/page_files.cpp)
# An assembler's text has no place in a program that is optimised as a whole.
set_source_files_properties(${CMAKE_BINARY_DIR}/page_files.cpp PROPERTIES GENERATED ON OBJECT_DEPENDS "${whole}"
  SKIP_PRECOMPILE_HEADERS ON SKIP_UNITY_BUILD_INCLUSION ON COMPILE_OPTIONS -fno-lto)
