#pragma once
// A thing described once: the table, the JSON and the help text are read off the field list.

namespace strikewright {

/// One member of a struct S with values of type T. `id` is never reused.
template <class S, class T = double>
struct Field {
  int id;
  const char* key;   ///< JSON key with its unit: "carry_m"
  const char* unit;  ///< unit as shown: "m"
  double scale;      ///< shown value = SI value / scale
  const char* says;  ///< one plain phrase
  T S::*at;
};

}  // namespace strikewright
