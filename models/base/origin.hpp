#pragma once

namespace rackwright {

/// Where a parameter's value comes from; printed by `describe models` and on the model pages.
enum class Origin { measured, borrowed, assumed };

}  // namespace rackwright
