#pragma once

#include <QColor>
#include <QString>

#include "joinery/model/model.h"
#include "joinery/piece/finding.h"

class QApplication;

namespace dryfit::viewer {

/// Whether the window is dark now: what the palette of the program says.
[[nodiscard]] bool isDark();

/// A colour of the window, by light and by dark; looked up where it is used.
struct Shade {
  QColor light, dark;
  // NOLINTNEXTLINE(google-explicit-constructor): it stands for its colour everywhere
  operator QColor() const { return isDark() ? dark : light; }
  [[nodiscard]] QString name() const { return QColor(*this).name(); }
};

/// Colours of the window, in one place.
namespace colour {
inline const Shade paper{{0xf6, 0xf3, 0xee}, {0x26, 0x25, 0x23}};     ///< window
inline const Shade sheet{{0xff, 0xfe, 0xfb}, {0x1d, 0x1c, 0x1b}};     ///< lists and tables
inline const Shade stripe{{0xf3, 0xef, 0xe7}, {0x24, 0x23, 0x21}};    ///< every other row
inline const Shade bar{{0xeb, 0xe5, 0xda}, {0x32, 0x30, 0x2d}};       ///< heads, tool row
inline const Shade rule{{0xd9, 0xd2, 0xc6}, {0x45, 0x42, 0x3e}};      ///< lines between things
inline const Shade ink{{0x2d, 0x2a, 0x26}, {0xec, 0xe7, 0xdf}};       ///< text
inline const Shade fadedInk{{0x6a, 0x64, 0x5a}, {0xab, 0xa4, 0x99}};  ///< second-rank text
inline const Shade accent{{0x2f, 0x62, 0x7d}, {0x8c, 0xc2, 0xdc}};    ///< chosen things
inline const Shade onAccent{{0xff, 0xff, 0xff}, {0x12, 0x1d, 0x23}};  ///< text on them
inline const Shade accentPale{{0xd5, 0xe3, 0xea}, {0x2b, 0x46, 0x55}};
inline const Shade skyTop{{0xd9, 0xdd, 0xdf}, {0x3b, 0x40, 0x44}};     ///< view, upper edge
inline const Shade skyBottom{{0xf4, 0xf2, 0xee}, {0x24, 0x25, 0x26}};  ///< view, lower edge
inline const Shade refused{{0xf8, 0xdc, 0xd5}, {0x5c, 0x2b, 0x23}};    ///< entry that cannot be
inline const Shade hover{{0x7f, 0xa9, 0xbd}, {0x5f, 0x93, 0xab}};
inline const Shade pointedPlace{{0x3f, 0x8f, 0xb5}, {0x5f, 0xb4, 0xdc}};  ///< pointed at
inline const Shade takenPlace{{0xc2, 0x6a, 0x1c}, {0xe8, 0x94, 0x4a}};    ///< and taken
inline const Shade ghost{{0x8f, 0xb8, 0x9a}, {0x9c, 0xc9, 0xa8}};         ///< a part to come
}  // namespace colour

/// How the window is dressed; kept from one start to the next.
struct Dress {
  enum class Light { asTheSystem, light, dark };
  Light light = Light::asTheSystem;
  int percent = 100;  ///< size of the letters: 100, 125 or 150
};
[[nodiscard]] Dress keptDress();
void keepDress(const Dress& dress);

/// Colour of a severity, dark enough for text on `colour::sheet`.
[[nodiscard]] QColor colourOf(joinery::Severity severity);

/// Long-grain colour of a material: by its species where the table knows it, else one of a few
/// neutral woods by `index`, so that two unknown materials still differ.
[[nodiscard]] QColor woodColour(const joinery::Material& material, std::size_t index);
/// Of the lines where faces of that wood meet: seen on dark wood as on pale.
[[nodiscard]] QColor edgeColour(const QColor& wood);
/// End grain and ply edges of the same wood are darker.
[[nodiscard]] QColor endGrainColour(const QColor& wood);

/// Style, palette and font of the program, as kept.
void dress(QApplication& app);
/// The same as given; windows that are open are dressed anew.
void dress(QApplication& app, const Dress& how);

}  // namespace dryfit::viewer
