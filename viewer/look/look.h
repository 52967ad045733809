#pragma once

#include <QColor>

#include "joinery/model/model.h"
#include "joinery/piece/finding.h"

class QApplication;

namespace dryfit::viewer {

/// Colours of the window, in one place.
namespace colour {
inline const QColor paper{0xf6, 0xf3, 0xee};     ///< window
inline const QColor sheet{0xff, 0xfe, 0xfb};     ///< lists and tables
inline const QColor stripe{0xf3, 0xef, 0xe7};    ///< every other row
inline const QColor rule{0xd9, 0xd2, 0xc6};      ///< lines between things
inline const QColor ink{0x2d, 0x2a, 0x26};       ///< text
inline const QColor fadedInk{0x7a, 0x73, 0x68};  ///< second-rank text
inline const QColor accent{0x2f, 0x62, 0x7d};    ///< chosen things
inline const QColor accentPale{0xd5, 0xe3, 0xea};
inline const QColor skyTop{0xd9, 0xdd, 0xdf};     ///< view, upper edge
inline const QColor skyBottom{0xf4, 0xf2, 0xee};  ///< view, lower edge
inline const QColor refused{0xf8, 0xdc, 0xd5};    ///< cell with an entry that cannot be
inline const QColor hover{0x7f, 0xa9, 0xbd};
inline const QColor pointedPlace{0x3f, 0x8f, 0xb5};  ///< face, edge or corner pointed at
inline const QColor takenPlace{0xc2, 0x6a, 0x1c};    ///< and taken
inline const QColor ghost{0x8f, 0xb8, 0x9a};         ///< a part to come
}  // namespace colour

/// Colour of a severity, dark enough for text on `colour::sheet`.
[[nodiscard]] QColor colourOf(joinery::Severity severity);

/// Long-grain colour of a material: by its species where the table knows it, else one of a few
/// neutral woods by `index`, so that two unknown materials still differ.
[[nodiscard]] QColor woodColour(const joinery::Material& material, std::size_t index);
/// End grain and ply edges of the same wood are darker.
[[nodiscard]] QColor endGrainColour(const QColor& wood);

/// Style, palette and font of the program.
void dress(QApplication& app);

}  // namespace dryfit::viewer
