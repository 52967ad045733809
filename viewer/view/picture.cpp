#include "viewer/view/picture.h"

#include <Graphic3d_GraphicDriver.hxx>
#include <Image_PixMap.hxx>
#include <QImage>
#include <QString>
#include <Standard_Failure.hxx>
#include <cstring>
#include <utility>

#include "viewer/view/scene.h"
// X11 macros clash with Qt's names, so this one comes last.
#include <Xw_Window.hxx>

namespace dryfit::viewer {
QImage imageOf(const Handle(V3d_View) & view, QSize size) {
  Image_PixMap pixels;
  if (!view->ToPixMap(pixels, size.width(), size.height())) return {};
  QImage image(size, QImage::Format_RGB888);
  // Row 0 is the top one, whichever way the pixels lie in memory.
  for (int row = 0; row < size.height(); ++row) {
    std::memcpy(image.scanLine(row), pixels.Row(static_cast<Standard_Size>(row)),
                static_cast<std::size_t>(size.width()) * 3);
  }
  return image;
}

namespace {

QImage render(std::shared_ptr<const Assembled> assembled, int width, int height) {
  Scene scene;
  const auto& display = scene.context()->CurrentViewer()->Driver()->GetDisplayConnection();
  Handle(Xw_Window) window = new Xw_Window(display, "dryfit", 0, 0, width, height);
  window->SetVirtual(Standard_True);
  Handle(V3d_View) view = scene.makeView();
  view->SetWindow(window);
  scene.show(std::move(assembled));
  lookAt(view, Side::corner);
  fit(view, scene.bounds());
  QImage image = imageOf(view, {width, height});
  scene.clear();
  view->Remove();
  return image;
}

}  // namespace

Result<void> writePicture(std::shared_ptr<const Assembled> assembled,
                          const std::filesystem::path& file, int width, int height) {
  QImage image;
  try {
    image = render(std::move(assembled), width, height);
  } catch (const Standard_Failure& failure) {
    return fail(ErrorCode::libraryFailure,
                std::string("the picture could not be drawn: ") + failure.GetMessageString(),
                file.string(), "run with an X display (DISPLAY set)");
  }
  if (image.isNull()) {
    return fail(ErrorCode::libraryFailure, "the picture could not be drawn", file.string());
  }
  if (!image.save(QString::fromStdString(file.string()), "PNG")) {
    return fail(ErrorCode::fileNotWritten, "the picture could not be written", file.string(),
                "name a folder that exists and may be written to");
  }
  return {};
}

}  // namespace dryfit::viewer
