#include "viewer/view/view3d.h"

#include <Aspect_NeutralWindow.hxx>
#include <QKeyEvent>
#include <QLabel>
#include <QMouseEvent>
#include <QTimer>
#include <QVBoxLayout>
#include <QWheelEvent>
#include <TopoDS_Shape.hxx>
#include <algorithm>
#include <cmath>
#include <optional>

#include "export/words/failure_words.h"
#include "viewer/view/scene.h"
#include "viewer/view/view3d_impl.h"

namespace dryfit::viewer {
namespace {

constexpr double kTurnPerPixel = 0.0075;  // radians
constexpr double kZoomPerNotch = 1.15;
constexpr double kSteepest = 1.55;  // radians above or below the floor; short of straight down
constexpr int kSettleMs = 60;       // for the X server to give the window its new size
constexpr int kRestMs = 250;        // without a change, until the picture is drawn at its best
constexpr double kRoomRound = 90;   // mm shown round a finding's place

gp_Pnt middleOf(const Bnd_Box& box) {
  const gp_Pnt a = box.CornerMin();
  const gp_Pnt b = box.CornerMax();
  return {(a.X() + b.X()) / 2, (a.Y() + b.Y()) / 2, (a.Z() + b.Z()) / 2};
}

}  // namespace

View3d::View3d(QWidget* parent) : QWidget(parent), impl_(std::make_unique<Impl>()) {
  setAttribute(Qt::WA_PaintOnScreen);
  setAttribute(Qt::WA_NativeWindow);
  setAttribute(Qt::WA_NoSystemBackground);
  setMouseTracking(true);
  setFocusPolicy(Qt::StrongFocus);
  setMinimumSize(240, 180);
  draw([this] { impl_->view = impl_->scene.emplace().makeView(); });
  rest_.setSingleShot(true);
  rest_.setInterval(kRestMs);
  connect(&rest_, &QTimer::timeout, this, [this] { update(); });
  overRest_.setSingleShot(true);
  overRest_.setInterval(kRestMs);
  connect(&overRest_, &QTimer::timeout, this, [this] {
    if (impl_->ready()) draw([this] { drawOver(impl_->view, false); });
  });
}

View3d::~View3d() {
  if (!impl_->scene) return;
  impl_->scene->clear();
  if (!impl_->view.IsNull()) impl_->view->Remove();
}

QString View3d::trouble() const {
  return impl_->trouble;
}

QPaintEngine* View3d::paintEngine() const {
  return impl_->trouble.isEmpty() ? nullptr : QWidget::paintEngine();
}

void View3d::draw(const std::function<void()>& work) {
  try {
    work();
  } catch (...) {
    giveUp(QString::fromStdString(exporting::failureWords()));
  }
}

void View3d::giveUp(const QString& why) {
  impl_->trouble = tr("There is no picture of the piece: this display cannot draw it (%1). "
                      "Everything else works; a display with OpenGL shows the picture.")
                       .arg(why);
  // What is half made is left as it is: taking it down would ask the driver again.
  impl_->window.Nullify();
  impl_->view.Nullify();
  impl_->scene.reset();
  setAttribute(Qt::WA_PaintOnScreen, false);
  setAttribute(Qt::WA_NoSystemBackground, false);
  auto* words = new QLabel(impl_->trouble, this);
  words->setObjectName("noPicture");
  words->setAlignment(Qt::AlignCenter);
  words->setWordWrap(true);
  words->setMargin(24);
  auto* all = new QVBoxLayout(this);
  all->addWidget(words);
}

void View3d::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  if (impl_->ready() || !impl_->scene) return;
  // The library must not ask the X server for the size: Qt's request for it may still be on its
  // way.
  impl_->window = new Aspect_NeutralWindow;
  impl_->window->SetNativeHandle(static_cast<Aspect_Drawable>(winId()));
  const QSize pixels = size() * devicePixelRatioF();
  impl_->window->SetSize(pixels.width(), pixels.height());
  draw([this] { impl_->view->SetWindow(impl_->window); });
}

void View3d::paintEvent(QPaintEvent*) {
  if (!impl_->ready()) return;
  // Smooth edges take longer than all else where the machine draws without a graphics card: while
  // the piece changes it is drawn without them, and again with them when it has come to rest.
  impl_->view->ChangeRenderingParams().NbMsaaSamples = rest_.isActive() ? 0 : kEdgeSamples;
  draw([this] { impl_->view->Redraw(); });
  overRest_.stop();
}

void View3d::drawQuickly() {
  rest_.start();
  update();
}

void View3d::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  if (!impl_->ready()) return;
  const QSize pixels = size() * devicePixelRatioF();
  impl_->window->SetSize(pixels.width(), pixels.height());
  impl_->view->MustBeResized();
  update();
  QTimer::singleShot(kSettleMs, this, [this] { update(); });
}

void View3d::showPiece(std::shared_ptr<const Assembled> assembled) {
  if (!impl_->scene) return;
  const auto before = impl_->scene->shown();
  impl_->opened.reset();
  impl_->scene->show(std::move(assembled));
  if (impl_->scene->shown()) {
    impl_->scene->lights().showJoint(*impl_->scene->shown(), std::nullopt);
  }
  if (opened_ > 0) openOut(opened_);
  gathers_ = true;  // all is drawn anew below
  forgetLostPlaces(before.get());
  gathers_ = false;
  if (!fitted_) {
    lookFrom(Side::corner);
    fitted_ = true;
  }
  drawQuickly();
}

void View3d::clear() {
  if (!impl_->scene) return;
  impl_->scene->clear();
  forgetLostPlaces(nullptr);
  fitted_ = false;
  opened_ = 0;
  impl_->opened.reset();
  update();
}

void View3d::choose(const std::vector<joinery::PartId>& parts) {
  if (!impl_->scene) return;
  impl_->scene->choose(parts);
  update();
}

void View3d::bringOut(const joinery::Finding* finding) {
  if (!impl_->scene) return;
  impl_->scene->bringOut(finding);
  if (finding != nullptr) {
    const kernel::Vec3 size = finding->box.size();
    const double room = std::max(kRoomRound, 0.6 * std::max({size.x, size.y, size.z}));
    fit(impl_->view, bndOf(finding->box, room));
  }
  update();
}

void View3d::hide(const std::vector<joinery::PartId>& parts) {
  if (!impl_->scene) return;
  impl_->scene->hide(parts);
  update();
}

std::vector<joinery::PartId> View3d::hidden() const {
  return impl_->scene ? impl_->scene->hidden() : std::vector<joinery::PartId>{};
}

void View3d::lookFrom(Side side) {
  if (!impl_->scene) return;
  lookAt(impl_->view, side);
  fitAll();
}

void View3d::fitAll() {
  if (!impl_->scene) return;
  fit(impl_->view, impl_->scene->bounds());
  update();
}

TopoDS_Shape View3d::shapeOf(joinery::PartId part) const {
  return impl_->scene ? impl_->scene->shapeOf(part) : TopoDS_Shape();
}

std::vector<joinery::PartId> View3d::chosen() const {
  return impl_->scene ? impl_->scene->chosen() : std::vector<joinery::PartId>{};
}

QPoint View3d::device(QPointF position) const {
  return (position * devicePixelRatioF()).toPoint();
}

void View3d::mousePressEvent(QMouseEvent* event) {
  last_ = pressed_ = device(event->position());
  dragged_ = false;
  if (event->button() == Qt::LeftButton && impl_->ready()) grab(pressed_);
}

void View3d::mouseMoveEvent(QMouseEvent* event) {
  const QPoint at = device(event->position());
  const QPoint by = at - last_;
  const bool begins = !dragged_ && (at - pressed_).manhattanLength() > 4;
  if (begins) dragged_ = true;
  if (event->buttons() != Qt::NoButton && dragged_ && grabbed_) {
    Q_EMIT faceDragged(*grabbed_, along(*grabbed_, at - pressed_), begins);
  } else if (event->buttons() == Qt::NoButton) {
    point(at);
  } else if (dragged_ && impl_->ready()) {
    if (event->buttons().testFlag(Qt::LeftButton)) {
      orbit(by);
    } else {
      impl_->view->Pan(by.x(), -by.y());
    }
    drawQuickly();
  }
  last_ = at;
}

void View3d::mouseReleaseEvent(QMouseEvent* event) {
  if (event->button() == Qt::LeftButton) grabbed_.reset();
  if (dragged_ || event->button() != Qt::LeftButton || !impl_->ready()) return;
  point(device(event->position()));
  if (pointing_ != Pointing::parts) {
    takePointed(event->modifiers().testFlag(Qt::ControlModifier));
    return;
  }
  const std::optional<joinery::PartId> part = impl_->scene->pointedAt();
  std::vector<joinery::PartId> parts;
  if (event->modifiers().testFlag(Qt::ControlModifier)) parts = impl_->scene->chosen();
  if (part) {
    const auto had = std::find(parts.begin(), parts.end(), *part);
    if (had == parts.end()) {
      parts.push_back(*part);
    } else {
      parts.erase(had);
    }
  }
  choose(parts);
  Q_EMIT partsChosen(parts);
}

void View3d::mouseDoubleClickEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton || !impl_->ready()) return;
  point(device(event->position()));
  const std::optional<joinery::PartId> part = impl_->scene->pointedAt();
  if (!part) {
    fitAll();
    return;
  }
  Bnd_Box box;
  impl_->scene->context()->DetectedInteractive()->BoundingBox(box);
  box.Enlarge(kRoomRound / 2);
  fit(impl_->view, box);
  update();
}

void View3d::wheelEvent(QWheelEvent* event) {
  if (!impl_->ready()) return;
  zoom(device(event->position()), event->angleDelta().y() / 120.0);
}

void View3d::keyPressEvent(QKeyEvent* event) {
  constexpr int kStep = 24;  // pixels of a drag that one press stands for
  const auto step = [&]() -> QPoint {
    switch (event->key()) {
      case Qt::Key_Left:
        return {-kStep, 0};
      case Qt::Key_Right:
        return {kStep, 0};
      case Qt::Key_Up:
        return {0, -kStep};
      case Qt::Key_Down:
        return {0, kStep};
      default:
        return {};
    }
  }();
  const bool closer = event->key() == Qt::Key_Plus || event->key() == Qt::Key_Equal;
  if (!impl_->ready()) return;
  if (!step.isNull()) {
    if (event->modifiers().testFlag(Qt::ShiftModifier)) {
      impl_->view->Pan(step.x(), -step.y());
    } else {
      orbit(step);
    }
    drawQuickly();
  } else if (closer || event->key() == Qt::Key_Minus) {
    zoom(device(rect().center()), closer ? 1 : -1);
  } else {
    QWidget::keyPressEvent(event);
  }
}

/// Closer by so many notches of the wheel, about a place in the view.
void View3d::zoom(QPoint at, double notches) {
  const double factor = std::pow(kZoomPerNotch, notches);
  const Handle(V3d_View)& view = impl_->view;
  double x = 0;
  double y = 0;
  view->Convert(at.x(), at.y(), x, y);  // in mm of the view's plane
  const double scale = view->Camera()->Scale();
  view->Camera()->SetScale(std::clamp(scale / factor, 1.0, 1e6));
  double newX = 0;
  double newY = 0;
  view->Convert(at.x(), at.y(), newX, newY);
  const gp_Dir up = view->Camera()->OrthogonalizedUp();
  const gp_Dir right = view->Camera()->Direction().Crossed(up);
  const gp_Vec shift = gp_Vec(right) * (x - newX) + gp_Vec(up) * (y - newY);
  view->Camera()->MoveEyeTo(view->Camera()->Eye().Translated(shift));
  view->ZFitAll();
  drawQuickly();
}

void View3d::leaveEvent(QEvent*) {
  if (!impl_->ready()) return;
  impl_->scene->pointToNothing();
  if (pointing_ == Pointing::parts) Q_EMIT partPointedAt(std::nullopt);
  drawPointed();
}

/// Turns about the upright axis and tips about the view's right, both through the piece's middle,
/// so that upright stays upright.
void View3d::orbit(QPoint by) {
  const Bnd_Box box = impl_->scene->bounds();
  if (box.IsVoid()) return;
  const Handle(Graphic3d_Camera)& camera = impl_->view->Camera();
  const gp_Pnt middle = middleOf(box);
  const gp_Vec out = gp_Vec(camera->Direction()).Reversed();
  const double height = std::asin(std::clamp(out.Z(), -1.0, 1.0));
  const double wanted = std::clamp(height + by.y() * kTurnPerPixel, -kSteepest, kSteepest);
  const gp_Dir right = camera->Direction().Crossed(camera->OrthogonalizedUp());
  gp_Trsf tip;
  tip.SetRotation(gp_Ax1(middle, right), -(wanted - height));
  gp_Trsf turn;
  turn.SetRotation(gp_Ax1(middle, gp_Dir(0, 0, 1)), -by.x() * kTurnPerPixel);
  camera->Transform(turn * tip);
  impl_->view->ZFitAll();
}

void View3d::point(QPoint at) {
  if (!impl_->ready()) return;
  if (pointing_ != Pointing::parts) return pointAtPlace(placeUnder(at));
  const auto before = impl_->scene->pointedAt();
  impl_->scene->pointTo(impl_->view, at.x(), at.y());
  const auto now = impl_->scene->pointedAt();
  if (before == now) return;
  impl_->scene->lightPointed(true);
  Q_EMIT partPointedAt(now);
  drawPointed();
}

/// What is pointed at lies over the picture, which stands.
void View3d::drawPointed() {
  if (!impl_->ready() || gathers_) return;
  draw([this] { drawOver(impl_->view, true); });
  overRest_.start();
}

}  // namespace dryfit::viewer
