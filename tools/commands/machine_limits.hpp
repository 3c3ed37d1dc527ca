#pragma once

/// What the machine or its limits refuse is told in a sentence: by main, for every command.
namespace dullcast::commands {

/// Called first: a limit on the size of files (ulimit -f) comes back as an error of the write instead of a
/// signal that kills, one on addresses (ulimit -v) leaves room for threads, and what no code catches ends the
/// program with a sentence and `failed`, not an abort.
void stand_the_machines_limits();

/// Says that memory ran out, without asking for any.
void tell_no_memory();

}  // namespace dullcast::commands
