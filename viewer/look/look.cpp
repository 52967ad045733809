#include "viewer/look/look.h"

#include <QApplication>
#include <QFont>
#include <QPalette>
#include <QStyleFactory>
#include <array>

#include "export/step/wood_colour.h"

namespace dryfit::viewer {
namespace {

const std::array<QColor, 5> kOtherWoods{QColor{0xcf, 0xae, 0x84}, QColor{0xe3, 0xce, 0xa8},
                                        QColor{0xb3, 0x8a, 0x66}, QColor{0xd9, 0xb9, 0x92},
                                        QColor{0x9c, 0x7b, 0x60}};

/// Thin lines round tables and tabs in the window's own colours.
constexpr auto kSheet = R"(
QHeaderView::section { background: #ebe5da; color: #5a5348; border: none;
  border-right: 1px solid #d9d2c6; border-bottom: 1px solid #d9d2c6; padding: 4px 7px; }
QTreeView, QTableView { outline: none; border: 1px solid #d9d2c6; gridline-color: #e8e2d7;
  selection-background-color: #d5e3ea; selection-color: #2d2a26; }
QTreeView::item { padding: 3px 6px; border: none; }
QTableView::item { padding: 2px 6px; border: none; }
QTreeView::item:selected, QTableView::item:selected { background: #d5e3ea; color: #2d2a26; }
QTabWidget::pane { border: none; }
QTabBar::tab { background: transparent; color: #7a7368; padding: 6px 12px;
  border-bottom: 2px solid transparent; }
QTabBar::tab:selected { color: #2d2a26; border-bottom: 2px solid #2f627d; }
QTabBar::tab:hover { color: #2f627d; }
QToolBar { background: #ebe5da; border: none; border-bottom: 1px solid #d9d2c6; spacing: 2px;
  padding: 4px 8px; }
QToolBar QLabel { color: #7a7368; padding: 0 4px 0 8px; }
QToolBar::separator { background: #d0c8ba; width: 1px; margin: 4px 8px; }
QToolBar QToolButton { padding: 4px 10px; border: 1px solid transparent; border-radius: 4px; }
QToolBar QToolButton:hover { background: #f6f3ee; border-color: #d0c8ba; }
QToolBar QToolButton:checked { background: #2f627d; color: #ffffff; border-color: #2f627d; }
QToolBar QToolButton:disabled { color: #aaa294; }
QStatusBar { background: #ebe5da; border-top: 1px solid #d9d2c6; }
QStatusBar::item { border: none; }
QSplitter::handle { background: #e4ddd1; }
QSplitter::handle:hover { background: #b9c9d1; }
QLabel[role="heading"] { color: #2d2a26; font-weight: bold; }
QLabel[role="aside"] { color: #7a7368; }
)";

}  // namespace

QColor colourOf(joinery::Severity severity) {
  switch (severity) {
    case joinery::Severity::error:
      return {0xae, 0x37, 0x2a};
    case joinery::Severity::warning:
      return {0xa8, 0x6a, 0x0e};
    case joinery::Severity::note:
      break;
  }
  return {0x5b, 0x6b, 0x78};
}

QColor woodColour(const joinery::Material& material, std::size_t index) {
  if (const auto known = exporting::colourOfSpecies(material)) {
    return QColor::fromRgbF(static_cast<float>(known->red), static_cast<float>(known->green),
                            static_cast<float>(known->blue));
  }
  return kOtherWoods[index % kOtherWoods.size()];
}

QColor endGrainColour(const QColor& wood) {
  return wood.darker(128);
}

void dress(QApplication& app) {
  QApplication::setStyle(QStyleFactory::create("Fusion"));
  QPalette p;
  p.setColor(QPalette::Window, colour::paper);
  p.setColor(QPalette::WindowText, colour::ink);
  p.setColor(QPalette::Base, colour::sheet);
  p.setColor(QPalette::AlternateBase, colour::stripe);
  p.setColor(QPalette::Text, colour::ink);
  p.setColor(QPalette::Button, QColor(0xeb, 0xe5, 0xda));
  p.setColor(QPalette::ButtonText, colour::ink);
  p.setColor(QPalette::Highlight, colour::accent);
  p.setColor(QPalette::HighlightedText, Qt::white);
  p.setColor(QPalette::ToolTipBase, colour::sheet);
  p.setColor(QPalette::ToolTipText, colour::ink);
  p.setColor(QPalette::PlaceholderText, colour::fadedInk);
  p.setColor(QPalette::Disabled, QPalette::Text, colour::fadedInk);
  p.setColor(QPalette::Disabled, QPalette::ButtonText, colour::fadedInk);
  QApplication::setPalette(p);
  QFont font("DejaVu Sans");
  font.setPointSizeF(9.5);
  QApplication::setFont(font);
  app.setStyleSheet(kSheet);
}

}  // namespace dryfit::viewer
