#include "export/step/step_writer.h"

#include <APIHeaderSection_MakeHeader.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <STEPCAFControl_Controller.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <Standard_Failure.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepModel.hxx>
#include <StepData_StepWriter.hxx>
#include <StepRepr_NextAssemblyUsageOccurrence.hxx>
#include <TCollection_ExtendedString.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TDF_Label.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <TopLoc_Location.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XSControl_WorkSession.hxx>
#include <gp_Ax3.hxx>
#include <gp_Trsf.hxx>
#include <mutex>
#include <sstream>

#include "export/files/ascii_name.h"
#include "export/step/step_colours.h"
#include "export/step/step_products.h"
#include "export/step/wood_colour.h"
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

/// Puts the piece into the document; gives the shapes with their colours, a product each.
std::vector<ColouredShape> fill(const Document& document, const joinery::Piece& piece,
                                const std::vector<kernel::Solid>& solids,
                                const std::vector<StepProduct>& products) {
  const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document.get()->Main());
  const TDF_Label assembly = shapes->NewShape();
  setName(assembly, asciiName(piece.model.name));
  std::vector<ColouredShape> coloured;
  for (const StepProduct& product : products) {
    const TopoDS_Shape shape = ownShape(solids[product.part.index()]);
    const TDF_Label label = shapes->AddShape(shape, /*makeAssembly=*/false);
    setName(label, product.name);
    coloured.push_back({shape, colourOfMaterial(piece.model, product.material)});
    for (const StepInstance& instance : product.instances) {
      setName(shapes->AddComponent(assembly, label, locationOf(instance.frame)), instance.name);
    }
  }
  shapes->UpdateAssemblies();
  return coloured;
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
  header.SetDescriptionValue(1,
                             text(std::string("sizes as ") +
                                  (piece.basis == joinery::Basis::drawn ? "drawn" : "measured")));
  if (!options.timeStamp.empty()) header.SetTimeStamp(text(options.timeStamp));
  header.Apply(model);
}

/// The library numbers instances through the life of the program; a file starts at 1.
void numberInstances(const Handle(StepData_StepModel) & model) {
  int number = 0;
  for (int i = 1; i <= model->NbEntities(); ++i) {
    const auto instance = Handle(StepRepr_NextAssemblyUsageOccurrence)::DownCast(model->Value(i));
    if (!instance.IsNull()) instance->SetId(text(std::to_string(++number)));
  }
}

Result<std::string> write(const Document& document, const std::vector<ColouredShape>& colours,
                          const joinery::Piece& piece, const StepOptions& options) {
  // The settings exist only after Init, and a writer reads them when it is made.
  STEPCAFControl_Controller::Init();
  if (!Interface_Static::SetCVal("write.step.schema",
                                 options.schema == StepSchema::ap242 ? "AP242DIS" : "AP214IS") ||
      !Interface_Static::SetCVal("write.step.unit", "MM")) {
    return fail(ErrorCode::libraryFailure, "the STEP writer does not accept its settings",
                "STEP file");
  }
  STEPCAFControl_Writer writer;
  writer.SetColorMode(false);  // addStepColours does it in a settled order
  writer.SetNameMode(true);
  if (!writer.Transfer(document.get(), STEPControl_AsIs) || !addStepColours(writer, colours)) {
    return fail(ErrorCode::libraryFailure, "the piece could not be put into a STEP model",
                "STEP file");
  }
  const auto model = writer.ChangeWriter().Model();
  setHeader(model, piece, options);
  numberInstances(model);
  const auto protocol = Handle(StepData_Protocol)::DownCast(writer.ChangeWriter().WS()->Protocol());
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
    const auto colours = fill(document, piece, solids, *products);
    return write(document, colours, piece, options);
  } catch (const Standard_Failure& e) {
    return fail(ErrorCode::libraryFailure,
                std::string("the STEP writer failed: ") + e.DynamicType()->Name(), "STEP file");
  }
}

}  // namespace dryfit::exporting
