#include "viewer/building/material_page.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QVBoxLayout>

#include "joinery/file/material_edits.h"
#include "joinery/file/part_edits.h"

namespace dryfit::viewer {

MaterialPage::MaterialPage(BenchDocument& document, QWidget* parent)
    : QWidget(parent), document_(document) {
  setObjectName("materialPage");
  table_ = new QTableWidget;
  table_->setObjectName("materials");
  table_->setColumnCount(columns);
  table_->setHorizontalHeaderLabels(
      {tr("Material"), tr("Kind"), tr("Wood or sheet"), tr("Thickness")});
  table_->verticalHeader()->hide();
  table_->setShowGrid(false);
  table_->horizontalHeader()->setSectionResizeMode(species, QHeaderView::Stretch);
  auto* solid = new QPushButton(tr("Add timber"));
  solid->setObjectName("addTimber");
  auto* sheet = new QPushButton(tr("Add a sheet"));
  sheet->setObjectName("addSheet");
  auto* row = new QHBoxLayout;
  row->addWidget(solid);
  row->addWidget(sheet);
  row->addStretch(1);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->addWidget(table_, 1);
  all->addLayout(row);
  connect(table_, &QTableWidget::itemChanged, this, &MaterialPage::take);
  connect(solid, &QPushButton::clicked, this, [this] { add("solid"); });
  connect(sheet, &QPushButton::clicked, this, [this] { add("sheet"); });
  connect(&document_, &BenchDocument::numbersChanged, this, &MaterialPage::refresh);
  refresh();
}

void MaterialPage::refresh() {
  const QSignalBlocker quiet(table_);
  setEnabled(document_.isOpen());
  const auto& materials =
      document_.isOpen() ? document_.model().materials : std::vector<joinery::Material>{};
  table_->setRowCount(static_cast<int>(materials.size()));
  for (int row = 0; row < table_->rowCount(); ++row) {
    const joinery::Material& m = materials[static_cast<std::size_t>(row)];
    const auto cell = [&](Column column, const std::string& text, bool editable) {
      auto* item = new QTableWidgetItem(QString::fromStdString(text));
      if (!editable) item->setFlags(item->flags() & ~Qt::ItemIsEditable);
      table_->setItem(row, column, item);
    };
    cell(name, m.name, false);
    cell(kind, m.kind == joinery::MaterialKind::sheet ? "sheet" : "timber", false);
    cell(species, m.species, true);
    cell(thickness, joinery::materialText(document_.file(), m.name, "thickness"), true);
  }
}

void MaterialPage::take(const QTableWidgetItem* item) {
  const std::string material = table_->item(item->row(), name)->text().toStdString();
  const std::string key = item->column() == species ? "species" : "thickness";
  const std::string text = item->text().toStdString();
  const auto done =
      document_.apply(tr("change of a material"), [material, key, text](joinery::ModelFile& file) {
        return joinery::setMaterialText(file, material, key, text);
      });
  if (done) {
    Q_EMIT taken();
  } else {
    Q_EMIT refused(QString::fromStdString(done.error().line()));
    refresh();
  }
}

void MaterialPage::add(const std::string& newKind) {
  const bool sheet = newKind == "sheet";
  joinery::NewMaterial material;
  material.name = joinery::freeName(document_.file(), sheet ? "sheet" : "board");
  material.kind = newKind;
  material.species = sheet ? "birch plywood" : "white oak";
  material.thickness = sheet ? "18 mm" : "20 mm";
  const auto done = document_.apply(tr("new material"), [material](joinery::ModelFile& file) {
    return joinery::addMaterial(file, material);
  });
  if (!done) Q_EMIT refused(QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer
