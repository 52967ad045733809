#include "export/drawing/title_block.h"

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"

namespace dryfit::exporting {
namespace {

constexpr double kRow = 10;
constexpr double kPad = 1.5;

/// Draws fields at given places; rows count from the top.
class FieldPen {
 public:
  explicit FieldPen(double height) : height_(height) {}

  void field(int row, double left, double width, const std::string& caption,
             const std::string& value, TextStyle style = TextStyle::regular) {
    const double top = outline(row, left, width, kRow);
    caption_(left, top, caption);
    write({left + kPad, top - kRow + kPad}, value, kTextHeight, width, style);
  }

  /// Title and supplementary title, two rows high.
  void titleField(int row, double left, double width, const TitleBlock& block) {
    const double top = outline(row, left, width, 2 * kRow);
    caption_(left, top, "Title");
    write({left + kPad, top - 11.5}, block.title, 5, width, TextStyle::bold);
    write({left + kPad, top - 2 * kRow + kPad + 0.6}, block.supplement, kTextHeight, width,
          TextStyle::regular);
  }

  void symbolField(int row, double left, double width, bool firstAngle) {
    const double top = outline(row, left, width, kRow);
    if (!firstAngle) return;
    constexpr double kHeight = 6;
    addFirstAngleSymbol(ink_, {left + (width - 2.2 * kHeight) / 2, top - (kRow + kHeight) / 2},
                        kHeight);
  }

  Ink take() {
    ink_.add(Stroke{{{0, 0}, {kTitleBlockWidth, 0}, {kTitleBlockWidth, height_}, {0, height_}},
                    true,
                    LineClass::frame,
                    Layer::titleBlock});
    return std::move(ink_);
  }

 private:
  double outline(int row, double left, double width, double height) {
    const double top = height_ - row * kRow;
    ink_.add(Stroke{
        {{left, top - height}, {left + width, top - height}, {left + width, top}, {left, top}},
        true,
        LineClass::dimension,
        Layer::titleBlock});
    return top;
  }

  void caption_(double left, double top, const std::string& caption) {
    ink_.add(Text{{left + kPad, top - 1.2 - kSmallTextHeight},
                  caption,
                  kSmallTextHeight,
                  TextAnchor::left,
                  0,
                  TextStyle::regular,
                  Layer::titleBlock});
  }

  /// Text in the greatest height of ISO 3098, up to `height`, that fits; shortened where none does.
  void write(Point2 at, const std::string& text, double height, double width, TextStyle style) {
    if (text.empty()) return;
    const double room = width - 2 * kPad;
    for (const double h : {5.0, 3.5, 2.5}) {
      if (h > height) continue;
      if (textWidth(text, h, style) <= room) {
        ink_.add(Text{at, text, h, TextAnchor::left, 0, style, Layer::titleBlock});
        return;
      }
    }
    const std::string start =
        wrapText(text, room - textWidth("…", 2.5, style), 2.5, style).front() + "…";
    ink_.add(Text{at, start, 2.5, TextAnchor::left, 0, style, Layer::titleBlock});
  }

  Ink ink_;
  double height_;
};

}  // namespace

Ink drawTitleBlock(const TitleBlock& block) {
  FieldPen pen(4 * kRow);
  pen.field(0, 0, 60, "Material", block.material);
  pen.field(0, 60, 20, "Quantity", block.quantity, TextStyle::bold);
  pen.field(0, 80, 64, block.sizeCaption, block.size, TextStyle::bold);
  pen.field(0, 144, 36, "Number", block.number, TextStyle::bold);
  pen.field(1, 0, 60, "Legal owner", block.owner);
  pen.field(1, 60, 20, "Scale", block.scale);
  pen.field(1, 80, 20, "Sizes in", block.unit);
  pen.symbolField(1, 100, 24, block.firstAngle);
  pen.field(1, 124, 56, "Document type", block.documentType);
  pen.titleField(2, 0, 100, block);
  pen.field(2, 100, 44, "Creator", block.creator);
  pen.field(2, 144, 36, "Approved by", block.approval);
  pen.field(3, 100, 44, "Date of issue", block.date);
  pen.field(3, 144, 36, "Sheet",
            std::to_string(block.sheet) + block.sheetPart + " / " + std::to_string(block.sheets));
  return pen.take();
}

}  // namespace dryfit::exporting
