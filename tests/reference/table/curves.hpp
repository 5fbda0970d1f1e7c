#pragma once
// What the models draw and what was published beside it, as rows for scripts/plot_models.

#include <string>
#include <vector>

namespace rackwright::validation {

/// One point of a line, or one published value (with the half-width of its range), on the picture of a model.
struct Mark {
  std::string model, series;
  bool published = false;
  double x = 0.0, y = 0.0, half_width = 0.0;
};

/// Title and axes of a picture.
struct Picture { std::string model, title, x_label, y_label; bool log_x = false, log_y = false; };

const std::vector<Picture>& pictures();
std::vector<Mark> marks();

/// Both as CSV: rows "picture,..." then rows "mark,...".
std::string curves_csv();

}  // namespace rackwright::validation
