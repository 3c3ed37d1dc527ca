#pragma once

#include "engine/base/threads.hpp"
