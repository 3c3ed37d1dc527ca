// Compiled as a source of models/wear by the tests of the structure: this must fail, since nothing of the
// engine can be found from there.
#include "engine/storage/checksum.hpp"
