#include "export/drawing/pdf_writer.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <memory>
#include <numbers>

#include "export/drawing/text_measure.h"
#include "export/files/atomic_file.h"

namespace dryfit::exporting {
namespace {

constexpr double kPointsPerMm = 72 / 25.4;

struct SurfaceDeleter {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct ContextDeleter {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

double radians(double degrees) {
  return degrees * std::numbers::pi / 180;
}

/// Draws marks on a context whose unit is 1 mm with y upward.
class Painter {
 public:
  explicit Painter(cairo_t* context) : context_(context) {}

  void operator()(const Stroke& stroke) const {
    if (stroke.points.empty()) return;
    path(stroke.points);
    if (stroke.closed) cairo_close_path(context_);
    ink(stroke.line);
  }
  void operator()(const Arc& arc) const {
    cairo_new_path(context_);
    cairo_arc(context_, arc.centre.x, arc.centre.y, arc.radius, radians(arc.from), radians(arc.to));
    ink(arc.line);
  }
  void operator()(const Fill& fill) const {
    path(fill.points);
    cairo_close_path(context_);
    cairo_fill(context_);
  }
  void operator()(const Text& text) const {
    cairo_save(context_);
    cairo_translate(context_, text.at.x, text.at.y);
    cairo_rotate(context_, radians(text.rotation));
    cairo_scale(context_, 1, -1);
    cairo_select_font_face(
        context_, std::string(kFontFamily).c_str(), CAIRO_FONT_SLANT_NORMAL,
        text.style == TextStyle::bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(context_, emSize(text.height));
    const double width = textWidth(text.text, text.height, text.style);
    cairo_move_to(context_,
                  text.anchor == TextAnchor::left     ? 0
                  : text.anchor == TextAnchor::middle ? -width / 2
                                                      : -width,
                  0);
    cairo_show_text(context_, text.text.c_str());
    cairo_restore(context_);
  }

 private:
  void path(const std::vector<Point2>& points) const {
    cairo_new_path(context_);
    for (const Point2& p : points) cairo_line_to(context_, p.x, p.y);
  }
  void ink(LineClass line) const {
    const LineStyle style = styleOf(line);
    cairo_set_line_width(context_, style.width);
    cairo_set_dash(context_, style.dashes.data(), static_cast<int>(style.dashes.size()), 0);
    cairo_stroke(context_);
  }

  cairo_t* context_;
};

void describe(cairo_surface_t* surface, const PdfInfo& info) {
  const auto set = [&](cairo_pdf_metadata_t key, const std::string& value) {
    cairo_pdf_surface_set_metadata(surface, key, value.c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, info.title);
  set(CAIRO_PDF_METADATA_CREATOR, "Dryfit");
  set(CAIRO_PDF_METADATA_CREATE_DATE, info.created);
  set(CAIRO_PDF_METADATA_MOD_DATE, info.created);
}

void paintPage(cairo_t* context, const Sheet& sheet) {
  cairo_save(context);
  cairo_scale(context, kPointsPerMm, -kPointsPerMm);
  cairo_translate(context, 0, -sheet.height);
  cairo_set_source_rgb(context, 0, 0, 0);
  cairo_set_line_cap(context, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(context, CAIRO_LINE_JOIN_ROUND);
  const Painter painter(context);
  for (const Mark& mark : sheet.ink.marks) std::visit(painter, mark);
  cairo_restore(context);
  cairo_show_page(context);
}

}  // namespace

Result<std::string> pdfBytes(std::span<const Sheet> sheets, const PdfInfo& info) {
  std::string bytes;
  const std::unique_ptr<cairo_surface_t, SurfaceDeleter> surface(
      cairo_pdf_surface_create_for_stream(append, &bytes, 100, 100));
  describe(surface.get(), info);
  const std::unique_ptr<cairo_t, ContextDeleter> context(cairo_create(surface.get()));
  for (const Sheet& sheet : sheets) {
    cairo_pdf_surface_set_size(surface.get(), sheet.width * kPointsPerMm,
                               sheet.height * kPointsPerMm);
    paintPage(context.get(), sheet);
  }
  cairo_surface_finish(surface.get());
  const cairo_status_t drawn = cairo_status(context.get());
  const cairo_status_t written = cairo_surface_status(surface.get());
  const cairo_status_t status = drawn != CAIRO_STATUS_SUCCESS ? drawn : written;
  if (status != CAIRO_STATUS_SUCCESS) {
    return fail(ErrorCode::libraryFailure,
                "the PDF cannot be made (" + std::string(cairo_status_to_string(status)) + ")");
  }
  return bytes;
}

Result<void> writePdf(const std::filesystem::path& path, std::span<const Sheet> sheets,
                      const PdfInfo& info) {
  const Result<std::string> bytes = pdfBytes(sheets, info);
  if (!bytes) return tl::unexpected(bytes.error());
  return writeFileAtomically(path, *bytes);
}

}  // namespace dryfit::exporting
