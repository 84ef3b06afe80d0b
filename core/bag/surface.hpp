#pragma once
// What the ball lies on.

namespace strikewright {

enum class Surface { fairway_soft, fairway, fairway_firm, rough, sand, mat, tee };

}  // namespace strikewright
