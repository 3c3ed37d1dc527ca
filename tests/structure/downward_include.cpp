// Compiled as a source of models/wear by the tests of the structure: this must succeed, so that the other one
// is known to fail for its include alone.
#include "models/common/constants.hpp"
