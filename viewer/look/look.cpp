#include "viewer/look/look.h"
#include "viewer/look/kept_settings.h"

#include <QApplication>
#include <QFont>
#include <QPalette>
#include <QStyleFactory>
#include <array>
#include <utility>

#include "export/step/wood_colour.h"

namespace dryfit::viewer {
namespace {

const std::array<QColor, 5> kOtherWoods{QColor{0xcf, 0xae, 0x84}, QColor{0xe3, 0xce, 0xa8},
                                        QColor{0xb3, 0x8a, 0x66}, QColor{0xd9, 0xb9, 0x92},
                                        QColor{0x9c, 0x7b, 0x60}};

/// Thin lines round tables and tabs in the window's own colours, named in braces.
constexpr auto kSheet = R"(
QHeaderView::section { background: {bar}; color: {ink}; border: none;
  border-right: 1px solid {rule}; border-bottom: 1px solid {rule}; padding: 4px 7px; }
QTreeView, QTableView { outline: none; border: 1px solid {rule}; gridline-color: {rule};
  selection-background-color: {accentPale}; selection-color: {ink}; }
QTreeView::item { padding: 3px 6px; border: none; }
QTableView::item { padding: 2px 6px; border: none; }
QTreeView::item:selected, QTableView::item:selected { background: {accentPale}; color: {ink}; }
QTreeView:focus, QTableView:focus { border: 1px solid {accent}; }
QTabWidget::pane { border: none; }
QTabBar { qproperty-drawBase: 0; }
QTabBar::tab { background: transparent; color: {fadedInk}; padding: 6px 12px;
  border-bottom: 2px solid transparent; }
QTabBar::tab:selected { color: {ink}; border-bottom: 2px solid {accent}; }
QTabBar::tab:hover, QTabBar::tab:focus { color: {accent}; }
QToolBar { background: {bar}; border: none; border-bottom: 1px solid {rule}; spacing: 2px;
  padding: 4px 8px; }
QToolBar QLabel { color: {fadedInk}; padding: 0 4px 0 8px; }
QToolBar::separator { background: {rule}; width: 1px; margin: 4px 8px; }
QToolBar QToolButton { padding: 4px 10px; border: 1px solid transparent; border-radius: 4px; }
QToolBar QToolButton:hover { background: {paper}; border-color: {rule}; }
QToolBar QToolButton:checked { background: {accent}; color: {onAccent}; border-color: {accent}; }
QToolBar QToolButton:disabled { color: {fadedInk}; }
QStatusBar { background: {bar}; border-top: 1px solid {rule}; }
QStatusBar::item { border: none; }
QSplitter::handle { background: {rule}; }
QSplitter::handle:hover { background: {accentPale}; }
QLabel[role="heading"] { color: {ink}; font-weight: bold; }
QLabel[role="aside"] { color: {fadedInk}; }
)";

QString sheetText() {
  QString text = kSheet;
  const std::pair<const char*, const Shade*> named[] = {
      {"{bar}", &colour::bar},       {"{ink}", &colour::ink},
      {"{rule}", &colour::rule},     {"{accentPale}", &colour::accentPale},
      {"{accent}", &colour::accent}, {"{fadedInk}", &colour::fadedInk},
      {"{paper}", &colour::paper},   {"{onAccent}", &colour::onAccent}};
  for (const auto& [name, shade] : named) text.replace(name, shade->name());
  return text;
}

/// The palette by light or dark; by it isDark() tells them apart.
QPalette paletteOf(bool dark) {
  const auto pick = [dark](const Shade& shade) { return dark ? shade.dark : shade.light; };
  QPalette p;
  p.setColor(QPalette::Window, pick(colour::paper));
  p.setColor(QPalette::WindowText, pick(colour::ink));
  p.setColor(QPalette::Base, pick(colour::sheet));
  p.setColor(QPalette::AlternateBase, pick(colour::stripe));
  p.setColor(QPalette::Text, pick(colour::ink));
  p.setColor(QPalette::BrightText, pick(colour::ink));
  p.setColor(QPalette::Button, pick(colour::bar));
  p.setColor(QPalette::ButtonText, pick(colour::ink));
  p.setColor(QPalette::Highlight, pick(colour::accent));
  p.setColor(QPalette::HighlightedText, pick(colour::onAccent));
  p.setColor(QPalette::Link, pick(colour::accent));
  p.setColor(QPalette::ToolTipBase, pick(colour::sheet));
  p.setColor(QPalette::ToolTipText, pick(colour::ink));
  p.setColor(QPalette::PlaceholderText, pick(colour::fadedInk));
  for (const auto role : {QPalette::Text, QPalette::ButtonText, QPalette::WindowText}) {
    p.setColor(QPalette::Disabled, role, pick(colour::fadedInk));
  }
  return p;
}

}  // namespace

bool isDark() {
  return QApplication::palette().color(QPalette::Window).lightness() < 128;
}

QColor colourOf(joinery::Severity severity) {
  switch (severity) {
    case joinery::Severity::error:
      return Shade{{0xae, 0x37, 0x2a}, {0xf0, 0x8d, 0x80}};
    case joinery::Severity::warning:
      return Shade{{0x8a, 0x55, 0x08}, {0xe0, 0xae, 0x5c}};
    case joinery::Severity::note:
      break;
  }
  return Shade{{0x53, 0x62, 0x6e}, {0xa5, 0xb6, 0xc2}};
}

QColor woodColour(const joinery::Material& material, std::size_t index) {
  if (const auto known = exporting::colourOfSpecies(material)) {
    return QColor::fromRgbF(static_cast<float>(known->red), static_cast<float>(known->green),
                            static_cast<float>(known->blue));
  }
  return kOtherWoods[index % kOtherWoods.size()];
}

QColor edgeColour(const QColor& wood) {
  constexpr int kDark = 90, kLighter = 175;  // grey of 255; percent
  return qGray(wood.rgb()) < kDark ? wood.lighter(kLighter) : QColor(0x4a, 0x38, 0x28);
}

QColor endGrainColour(const QColor& wood) {
  return wood.darker(128);
}

Dress keptDress() {
  const QSettings kept = keptSettings();
  Dress dress;
  const int light = kept.value("light", 0).toInt();
  if (light >= 0 && light <= 2) dress.light = static_cast<Dress::Light>(light);
  const int percent = kept.value("letters", 100).toInt();
  if (percent == 125 || percent == 150) dress.percent = percent;
  return dress;
}

void keepDress(const Dress& dress) {
  QSettings kept = keptSettings();
  kept.setValue("light", static_cast<int>(dress.light));
  kept.setValue("letters", dress.percent);
}

void dress(QApplication& app) {
  dress(app, keptDress());
}

void dress(QApplication& app, const Dress& how) {
  constexpr double kPoints = 9.5;
  // What the desktop asked for is seen only before the program dresses itself.
  constexpr auto kSystem = "systemIsDark";
  if (!app.property(kSystem).isValid()) app.setProperty(kSystem, isDark());
  const bool systemIsDark = app.property(kSystem).toBool();
  const bool dark =
      how.light == Dress::Light::asTheSystem ? systemIsDark : how.light == Dress::Light::dark;
  QApplication::setStyle(QStyleFactory::create("Fusion"));
  QApplication::setPalette(paletteOf(dark));
  QFont font("DejaVu Sans");
  font.setPointSizeF(kPoints * how.percent / 100);
  QApplication::setFont(font);
  app.setStyleSheet(sheetText());
}

}  // namespace dryfit::viewer
