#include "kernel/src/square_mesh.h"

#include "kernel/src/ear_clip.h"

namespace dryfit::kernel {

FaceMesh meshOf(const SquareWork& work, const SquareWork::Face& face) {
  // Seen from outside, the first of these runs right and the second up.
  const int right = (face.axis + (face.looksUp ? 1 : 2)) % 3;
  const int up = (face.axis + (face.looksUp ? 2 : 1)) % 3;
  FaceMesh mesh;
  std::vector<Point2> flat;
  std::vector<int> ends;
  for (auto loop = face.firstLoop; loop < face.lastLoop; ++loop) {
    for (auto i = work.loops[loop].first; i < work.loops[loop].last; ++i) {
      const SquareWork::Use& use = work.uses[i];
      const SquareWork::Edge& edge = work.edges[use.edge];
      const Point3 start = work.at(work.corners[use.backwards ? edge.to : edge.from]);
      mesh.points.push_back(start);
      flat.push_back({start[right], start[up]});
    }
    ends.push_back(static_cast<int>(mesh.points.size()));
  }
  mesh.triangles = clipEars(flat, ends);
  return mesh;
}

}  // namespace dryfit::kernel
