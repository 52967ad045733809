#pragma once

#include <QImage>
#include <QPoint>
#include <QTimer>
#include <QWidget>
#include <memory>
#include <optional>
#include <vector>

#include "joinery/base/face.h"
#include "joinery/piece/finding.h"
#include "joinery/piece/place_on_part.h"
#include "kernel/hidden_lines.h"
#include "viewer/view/assembled.h"

class TopoDS_Shape;

namespace dryfit::viewer {

enum class Side;

/// What the pointer takes in the view.
enum class Pointing { parts, faces, edges, corners };

/// A plane square to an axis of the piece, at which it is cut open in the view.
struct Cut {
  joinery::Axis axis = joinery::Axis::y;
  double at = 0;         ///< mm along the axis
  bool keepsFar = true;  ///< the side with the greater coordinates stays
  friend bool operator==(const Cut&, const Cut&) = default;
};

/// The piece in three dimensions, in a native X window that the geometry library draws into.
///
/// Left button drags turn, middle or right button drags shift, the wheel zooms about the pointer, a
/// left click chooses a part (with Ctrl one more), a double click brings a part into sight. With
/// the keyboard: arrows turn, with Shift they shift; plus and minus zoom. Where the display has no
/// graphics driver for it, a line says so in its place.
///
/// **Faces, edges, corners.** After `setPointing(Pointing::faces)` the pointer lights the face
/// under it (`placePointedAt`) and a click takes it (`placesTaken`; with Ctrl one more, or back
/// again). Keys do the same by `walk`, `cross`, `takePointed`, which the window's Point menu calls.
/// Whoever wants faces listens to these two signals and reads `pointedPlace` and `takenPlaces`;
/// what to write for one is joinery's `writtenName`. Parts are chosen as ever while it stands at
/// `parts`. What is taken stays until `takePlaces({})`, another piece, or parts that come or go.
class View3d : public QWidget {
  Q_OBJECT
 public:
  explicit View3d(QWidget* parent = nullptr);
  ~View3d() override;

  void showPiece(std::shared_ptr<const Assembled> assembled);
  void clear();
  void choose(const std::vector<joinery::PartId>& parts);
  /// Sets the finding's parts off from the rest, marks its place and moves there. Null: all again.
  void bringOut(const joinery::Finding* finding);
  /// Takes these parts out of sight, and shows all others.
  void hide(const std::vector<joinery::PartId>& parts);
  [[nodiscard]] std::vector<joinery::PartId> hidden() const;

  /// Draws what is farther away smaller, or all in one scale.
  void setPerspective(bool perspective);
  [[nodiscard]] bool isPerspective() const;
  /// Lets these parts be seen through, and no others.
  void seeThrough(const std::vector<joinery::PartId>& parts);
  /// Shows the figure of the wood on all faces, or its colour alone.
  void showGrain(bool shown);
  /// Cuts the piece open at a plane and takes away what lies before it; none closes it again.
  void setCut(const std::optional<Cut>& cut);
  /// Opens the piece out along its joints: 0 together, 1 wide open.
  void openOut(double share);
  [[nodiscard]] double openedShare() const { return opened_; }
  /// The view as it is, in another size; null where it cannot be drawn.
  [[nodiscard]] QImage picture(QSize size);
  /// Right and up of the view, in the piece.
  [[nodiscard]] kernel::Viewpoint viewpoint() const;
  /// How far a part stands off its place.
  [[nodiscard]] kernel::Vec3 offsetOf(joinery::PartId part) const;

  void lookFrom(Side side);
  void fitAll();
  /// Shows all of it where some of it is out of sight.
  void keepInSight();

  void setPointing(Pointing pointing);
  [[nodiscard]] Pointing pointing() const { return pointing_; }
  [[nodiscard]] const std::optional<joinery::PlaceOnPart>& pointedPlace() const { return pointed_; }
  [[nodiscard]] const std::vector<joinery::PlaceOnPart>& takenPlaces() const { return taken_; }
  /// Lights a place as if the pointer were on it.
  void pointAtPlace(const std::optional<joinery::PlaceOnPart>& place);
  void takePlaces(const std::vector<joinery::PlaceOnPart>& places);
  /// As a click: what is pointed at is taken alone, or beside what is taken already.
  void takePointed(bool beside);
  /// To the next place of the pointed part (or of the chosen one), or to the one before.
  void walk(int steps);
  /// To what lies against the pointed face, each in turn, then back to it. False: nothing does.
  bool cross();
  /// To the same place of the next part in sight.
  void walkToNextPart();
  /// Lights the faces of a joint on its mates, until another is, the piece changes or is opened
  /// out; none lets them go dark. Returns how many faces.
  int lightJoint(std::optional<joinery::JointId> joint);
  /// The joint whose cheek or wall is under the pointer.
  [[nodiscard]] std::optional<joinery::JointId> jointUnder(QPoint at);
  /// Where the pointer was last, in the view.
  [[nodiscard]] QPoint lastPointer() const { return last_; }
  /// Shows where a part to come would stand; none takes it away.
  void showGhost(const std::optional<kernel::Box3>& box);

  /// The shape drawn for a part; null shape where there is none.
  [[nodiscard]] TopoDS_Shape shapeOf(joinery::PartId part) const;
  [[nodiscard]] std::vector<joinery::PartId> chosen() const;

  /// Why there is no picture; empty where there is one.
  [[nodiscard]] QString trouble() const;
  /// None: the library draws. Without a picture, Qt paints the words that stand for it.
  [[nodiscard]] QPaintEngine* paintEngine() const override;
  [[nodiscard]] QSize sizeHint() const override { return {760, 560}; }

 Q_SIGNALS:
  void partsChosen(const std::vector<dryfit::joinery::PartId>& parts);
  void partPointedAt(std::optional<dryfit::joinery::PartId> part);
  void placePointedAt(const std::optional<dryfit::joinery::PlaceOnPart>& place);
  /// A face that was taken is dragged: so many mm outwards from where the drag began.
  void faceDragged(const dryfit::joinery::PlaceOnPart& face, double by, bool begins);
  void placesTaken(const std::vector<dryfit::joinery::PlaceOnPart>& places);

 protected:
  void showEvent(QShowEvent* event) override;
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void leaveEvent(QEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  struct Impl;
  /// From here on there is no picture, but these words.
  void giveUp(const QString& why);
  /// Does what needs the graphics driver, which throws where it fails; gives up then.
  void draw(const std::function<void()>& work);
  [[nodiscard]] QPoint device(QPointF position) const;
  /// Paints at once without smooth edges, and once more with them when nothing has moved for a
  /// while.
  void drawQuickly();
  void orbit(QPoint by);
  void zoom(QPoint at, double notches);
  void point(QPoint at);
  void drawPointed();
  [[nodiscard]] joinery::PlaceKind placeKind() const;
  [[nodiscard]] std::optional<joinery::PlaceOnPart> placeUnder(QPoint at);
  void lightPlaces();
  /// How far along a face's own direction a drag of so many pixels goes, mm.
  [[nodiscard]] double along(const joinery::PlaceOnPart& face, QPoint pixels) const;
  /// The taken face under the pointer is in hand from here on; none where there is none.
  void grab(QPoint at);
  /// What was lit goes by its part's number, which may be another's now.
  void forgetLostPlaces(const Assembled* before);

  std::unique_ptr<Impl> impl_;
  QPoint last_, pressed_;
  bool dragged_ = false;
  bool fitted_ = false;
  double opened_ = 0;
  Pointing pointing_ = Pointing::parts;
  std::optional<joinery::PlaceOnPart> pointed_;
  std::vector<joinery::PlaceOnPart> taken_;
  std::optional<joinery::PlaceOnPart> grabbed_;  ///< face that is dragged
  std::vector<joinery::PlaceOnPart> crossing_;   ///< what `cross` goes through
  std::size_t crossed_ = 0;
  bool gathers_ = false;  ///< what changes over the picture, to draw it at once
  QTimer rest_;           ///< runs while the picture is in motion
  QTimer overRest_;       ///< runs while what lies over the picture is
};

}  // namespace dryfit::viewer
