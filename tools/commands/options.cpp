#include "tools/commands/options.hpp"

#include <iostream>

#include "engine/base/threads.hpp"
#include "tools/commands/command.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

ReadOptions read_options(const std::vector<std::string>& words, const std::string& usage,
                         po::options_description shown, const char* positional, int most) {
  shown.add_options()("help,h", "this text")("version", "version and commit");
  if (words.size() == 1 && words[0] == what_do_you_take) throw WhatItTakes(usage, shown);
  po::options_description all;
  all.add(shown);
  po::options_description hidden;
  hidden.add_options()(positional, po::value<std::vector<std::string>>());
  all.add(hidden);
  po::positional_options_description places;
  places.add(positional, most);
  ReadOptions read;
  try {
    po::store(po::command_line_parser(words)
                  .options(all)
                  .positional(places)
                  .style(po::command_line_style::unix_style & ~po::command_line_style::allow_guessing)
                  .run(),
              read.values);
    po::notify(read.values);
  } catch (const po::too_many_positional_options_error&) {
    throw WrongWords("more words than this command takes: it wants " + std::to_string(most) + " " +
                     positional);
  } catch (const po::error& error) {
    throw WrongWords(error.what());
  }
  if (read.values.count("help") != 0) {
    std::cout << usage << "\n" << shown;
    read.finished = true;
  } else if (read.values.count("version") != 0) {
    std::cout << version_text();
    read.finished = true;
  }
  return read;
}

int threads_asked(const po::variables_map& values) {
  const int threads = values["threads"].as<int>();
  if (threads < 1) throw WrongWords("--threads is at least 1");
  if (threads > base::most_threads)
    throw WrongWords("--threads is at most " + std::to_string(base::most_threads) + ", not " +
                     std::to_string(threads) + "; more than the machine has make nothing faster");
  return threads;
}

std::string named_file(const ReadOptions& read, const char* positional, const std::string& what) {
  if (read.values.count(positional) == 0) throw WrongWords("name the " + what);
  return read.values[positional].as<std::vector<std::string>>().front();
}

}  // namespace dullcast::commands
