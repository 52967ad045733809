#include "export/step_writer.h"

#include <APIHeaderSection_MakeHeader.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Controller.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <Standard_Failure.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepModel.hxx>
#include <StepData_StepWriter.hxx>
#include <TCollection_ExtendedString.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TDF_Label.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <TopLoc_Location.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XSControl_WorkSession.hxx>
#include <gp_Ax3.hxx>
#include <gp_Trsf.hxx>
#include <mutex>
#include <sstream>

#include "export/ascii_name.h"
#include "export/step_products.h"
#include "export/wood_colour.h"
#include "kernel/occt_bridge.h"

namespace dryfit::exporting {

namespace {

/// The library's settings and its list of documents are global, so one export runs at a time.
std::mutex& libraryMutex() {
  static std::mutex mutex;
  return mutex;
}

/// Keeps the library from talking on the console for as long as it lives.
class Quiet {
 public:
  Quiet() : printers_(Message::DefaultMessenger()->Printers()) {
    Message::DefaultMessenger()->ChangePrinters().Clear();
  }
  Quiet(const Quiet&) = delete;
  Quiet& operator=(const Quiet&) = delete;
  ~Quiet() { Message::DefaultMessenger()->ChangePrinters() = printers_; }

 private:
  Message_SequenceOfPrinters printers_;
};

/// An XCAF document that is closed with this object.
class Document {
 public:
  Document() {
    XCAFApp_Application::GetApplication()->NewDocument("BinXCAF", document_);
    // 0.001 m: the shapes are in millimetres.
    XCAFDoc_DocumentTool::SetLengthUnit(document_, 0.001);
  }
  Document(const Document&) = delete;
  Document& operator=(const Document&) = delete;
  ~Document() { XCAFApp_Application::GetApplication()->Close(document_); }
  [[nodiscard]] const Handle(TDocStd_Document) & get() const { return document_; }

 private:
  Handle(TDocStd_Document) document_;
};

void setName(const TDF_Label& label, const std::string& name) {
  TDataStd_Name::Set(label, TCollection_ExtendedString(name.c_str(), true));
}

TopLoc_Location locationOf(const kernel::Frame& frame) {
  const auto direction = [](const kernel::Vec3& v) { return gp_Dir(v.x, v.y, v.z); };
  const gp_Ax3 axes(gp_Pnt(frame.origin.x, frame.origin.y, frame.origin.z), direction(frame.z),
                    direction(frame.x));
  gp_Trsf placement;
  placement.SetTransformation(axes, gp_Ax3());
  return TopLoc_Location(placement);
}

/// A shape of its own without a placement: the library takes shapes that share geometry for one,
/// but equal parts of two materials are two products.
TopoDS_Shape ownShape(const kernel::Solid& solid) {
  const TopoDS_Shape& shape = kernel::shapeOf(solid);
  const TopLoc_Location placement = shape.Location();
  const TopoDS_Shape bare = BRepBuilderAPI_Copy(shape.Located(TopLoc_Location())).Shape();
  if (placement.IsIdentity()) return bare;
  return BRepBuilderAPI_Transform(bare, placement.Transformation(), /*Copy=*/true).Shape();
}

void fill(const Document& document, const joinery::Piece& piece,
          const std::vector<kernel::Solid>& solids, const std::vector<StepProduct>& products) {
  const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document.get()->Main());
  const auto colours = XCAFDoc_DocumentTool::ColorTool(document.get()->Main());
  const TDF_Label assembly = shapes->NewShape();
  setName(assembly, asciiName(piece.model.name));
  for (const StepProduct& product : products) {
    const TDF_Label shape =
        shapes->AddShape(ownShape(solids[product.part.index()]), /*makeAssembly=*/false);
    setName(shape, product.name);
    const Colour c = colourOfMaterial(piece.model, product.material);
    colours->SetColor(shape, Quantity_Color(c.red, c.green, c.blue, Quantity_TOC_sRGB),
                      XCAFDoc_ColorSurf);
    for (const StepInstance& instance : product.instances) {
      setName(shapes->AddComponent(assembly, shape, locationOf(instance.frame)), instance.name);
    }
  }
  shapes->UpdateAssemblies();
}

Handle(TCollection_HAsciiString) text(const std::string& s) {
  return new TCollection_HAsciiString(s.c_str());
}

void setHeader(const Handle(StepData_StepModel) & model, const joinery::Piece& piece,
               const StepOptions& options) {
  APIHeaderSection_MakeHeader header(model);
  header.SetName(text(asciiName(piece.model.name)));
  header.SetAuthorValue(1, text(""));
  header.SetOrganizationValue(1, text(""));
  header.SetPreprocessorVersion(text("dryfit " DRYFIT_VERSION));
  header.SetOriginatingSystem(text("dryfit " DRYFIT_VERSION));
  header.SetAuthorisation(text(""));
  header.SetDescriptionValue(1, text(std::string("sizes as ") +
                                     (piece.basis == joinery::Basis::drawn ? "drawn" : "measured")));
  if (!options.timeStamp.empty()) header.SetTimeStamp(text(options.timeStamp));
  header.Apply(model);
}

Result<std::string> write(const Document& document, const joinery::Piece& piece,
                          const StepOptions& options) {
  // The settings exist only after Init, and a writer reads them when it is made.
  STEPCAFControl_Controller::Init();
  if (!Interface_Static::SetCVal("write.step.schema",
                                 options.schema == StepSchema::ap242 ? "AP242DIS" : "AP214IS") ||
      !Interface_Static::SetCVal("write.step.unit", "MM")) {
    return fail(ErrorCode::libraryFailure, "the STEP writer refuses its settings", "STEP file");
  }
  STEPCAFControl_Writer writer;
  writer.SetColorMode(true);
  writer.SetNameMode(true);
  if (!writer.Transfer(document.get(), STEPControl_AsIs)) {
    return fail(ErrorCode::libraryFailure, "the piece could not be put into a STEP model",
                "STEP file");
  }
  const auto model = writer.ChangeWriter().Model();
  setHeader(model, piece, options);
  const auto protocol =
      Handle(StepData_Protocol)::DownCast(writer.ChangeWriter().WS()->Protocol());
  StepData_StepWriter lines(model);
  lines.SendModel(protocol);
  std::ostringstream out;
  if (!lines.Print(out)) {
    return fail(ErrorCode::libraryFailure, "the STEP model could not be written", "STEP file");
  }
  return out.str();
}

}  // namespace

Result<std::string> stepText(const joinery::Piece& piece, const std::vector<kernel::Solid>& solids,
                             const StepOptions& options) {
  const auto products = stepProducts(piece, solids);
  if (!products) return tl::unexpected(products.error());
  const std::scoped_lock lock(libraryMutex());
  try {
    const Quiet quiet;
    const Document document;
    fill(document, piece, solids, *products);
    return write(document, piece, options);
  } catch (const Standard_Failure& e) {
    return fail(ErrorCode::libraryFailure,
                std::string("the STEP writer failed: ") + e.DynamicType()->Name(), "STEP file");
  }
}

}  // namespace dryfit::exporting
