#include "tests/support/step_reader.h"

#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <TCollection_AsciiString.hxx>
#include <TDF_LabelSequence.hxx>
#include <TDF_Tool.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <gp_Trsf.hxx>
#include <set>

#include "kernel/occt_bridge.h"
#include "tests/support/scratch.h"

namespace dryfit::testing {

namespace {

std::string nameOf(const TDF_Label& label) {
  Handle(TDataStd_Name) name;
  if (!label.FindAttribute(TDataStd_Name::GetID(), name)) return "";
  return TCollection_AsciiString(name->Get()).ToCString();
}

kernel::Frame frameOf(const gp_Trsf& t) {
  const auto column = [&t](int i) {
    return kernel::Vec3{t.Value(1, i), t.Value(2, i), t.Value(3, i)};
  };
  return {{t.Value(1, 4), t.Value(2, 4), t.Value(3, 4)}, column(1), column(2), column(3)};
}

std::optional<exporting::Colour> colourOf(const Handle(XCAFDoc_ColorTool) & colours,
                                          const TDF_Label& shape) {
  Quantity_Color colour;
  if (!colours->GetColor(shape, XCAFDoc_ColorSurf, colour) &&
      !colours->GetColor(shape, XCAFDoc_ColorGen, colour)) {
    return std::nullopt;
  }
  exporting::Colour rgb;
  colour.Values(rgb.red, rgb.green, rgb.blue, Quantity_TOC_sRGB);
  return rgb;
}

Result<ReadStep> readDocument(const Handle(TDocStd_Document) & document) {
  const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document->Main());
  const auto colours = XCAFDoc_DocumentTool::ColorTool(document->Main());
  TDF_LabelSequence roots;
  shapes->GetFreeShapes(roots);
  if (roots.Length() != 1) return fail(ErrorCode::libraryFailure, "not one root");
  ReadStep step;
  step.assembly = nameOf(roots.First());
  TDF_LabelSequence components;
  XCAFDoc_ShapeTool::GetComponents(roots.First(), components);
  std::set<std::string> products;
  for (const TDF_Label& component : components) {
    TDF_Label shape;
    XCAFDoc_ShapeTool::GetReferredShape(component, shape);
    TCollection_AsciiString entry;
    TDF_Tool::Entry(shape, entry);
    products.insert(entry.ToCString());
    auto solid = kernel::solidFrom(XCAFDoc_ShapeTool::GetShape(component));
    if (!solid) return tl::unexpected(solid.error());
    step.instances.push_back({nameOf(component), nameOf(shape),
                              frameOf(XCAFDoc_ShapeTool::GetLocation(component).Transformation()),
                              *solid, colourOf(colours, shape)});
  }
  step.products = static_cast<int>(products.size());
  return step;
}

}  // namespace

Result<ReadStep> readStep(const std::string& text) {
  const Scratch scratch;
  const std::string file = scratch.write("read.step", text);
  Message::DefaultMessenger()->ChangePrinters().Clear();
  const auto application = XCAFApp_Application::GetApplication();
  Handle(TDocStd_Document) document;
  application->NewDocument("BinXCAF", document);
  STEPCAFControl_Reader reader;
  reader.SetColorMode(true);
  reader.SetNameMode(true);
  Result<ReadStep> step = fail(ErrorCode::libraryFailure, "not read");
  if (reader.ReadFile(file.c_str()) == IFSelect_RetDone && reader.Transfer(document)) {
    step = readDocument(document);
  }
  application->Close(document);
  return step;
}

}  // namespace dryfit::testing
