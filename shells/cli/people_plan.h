// people_plan: a plan as a person going out reads it.
#pragma once

#include <string>

#include "desk/plan_answer.h"

namespace fallwright::cli {

std::string plan_text(const PlanAnswer& answer);
std::string quick_plan_text(const QuickPlan& quick);

}  // namespace fallwright::cli
