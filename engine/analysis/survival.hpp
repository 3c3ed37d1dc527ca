#pragma once

#include "engine/analysis/survival_without_flow.hpp"
