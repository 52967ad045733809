// Every public header of the kernel but the bridge, compiled with no way to the geometry library's
// own headers: what joinery sees. That this file compiles is the test.

#include "kernel/geometry.h"
#include "kernel/hidden_lines.h"
#include "kernel/mesh.h"
#include "kernel/recipe.h"
#include "kernel/result.h"
#include "kernel/solid.h"
#include "kernel/square_work.h"
#include "kernel/tolerance.h"
#include "kernel/units.h"

#if __has_include(<TopoDS_Shape.hxx>)
#error "the geometry library's headers are on the include path of a file that must not see them"
#endif
