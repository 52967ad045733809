#include "export/step/step_colours.h"

#include <Quantity_Color.hxx>
#include <STEPConstruct.hxx>
#include <STEPConstruct_DataMapOfAsciiStringTransient.hxx>
#include <STEPConstruct_DataMapOfPointTransient.hxx>
#include <STEPConstruct_Styles.hxx>
#include <StepData_StepModel.hxx>
#include <StepRepr_RepresentationContext.hxx>
#include <StepRepr_RepresentationItem.hxx>
#include <StepShape_AdvancedBrepShapeRepresentation.hxx>
#include <StepVisual_Colour.hxx>
#include <StepVisual_MechanicalDesignGeometricPresentationRepresentation.hxx>
#include <StepVisual_PresentationStyleAssignment.hxx>
#include <StepVisual_StyledItem.hxx>
#include <TopExp_Explorer.hxx>
#include <Transfer_FinderProcess.hxx>
#include <XSControl_TransferWriter.hxx>
#include <XSControl_WorkSession.hxx>

namespace dryfit::exporting {

namespace {

/// The context (unit and accuracy) of the first shape; all shapes have one of the same content.
Handle(StepRepr_RepresentationContext) firstContext(const Handle(StepData_StepModel) & model) {
  for (int i = 1; i <= model->NbEntities(); ++i) {
    const auto shape = Handle(StepShape_AdvancedBrepShapeRepresentation)::DownCast(model->Value(i));
    if (!shape.IsNull()) return shape->ContextOfItems();
  }
  return {};
}

}  // namespace

bool addStepColours(STEPCAFControl_Writer& writer, const std::vector<ColouredShape>& shapes) {
  const Handle(XSControl_WorkSession) session = writer.ChangeWriter().WS();
  const Handle(StepData_StepModel) model = writer.ChangeWriter().Model();
  const Handle(Transfer_FinderProcess) finder = session->TransferWriter()->FinderProcess();
  STEPConstruct_Styles styles(session);
  STEPConstruct_DataMapOfAsciiStringTransient named;
  STEPConstruct_DataMapOfPointTransient mixed;
  for (const ColouredShape& one : shapes) {
    const Quantity_Color wood(one.colour.red, one.colour.green, one.colour.blue, Quantity_TOC_sRGB);
    const Handle(StepVisual_Colour) colour = STEPConstruct_Styles::EncodeColor(wood, named, mixed);
    for (TopExp_Explorer it(one.shape, TopAbs_SOLID); it.More(); it.Next()) {
      const auto item = STEPConstruct::FindEntity(finder, it.Current());
      if (item.IsNull()) return false;
      const auto style = styles.MakeColorPSA(item, colour, nullptr, nullptr, 0.0);
      styles.AddStyle(item, style, nullptr);
    }
  }
  Handle(StepVisual_MechanicalDesignGeometricPresentationRepresentation) all;
  if (!styles.CreateMDGPR(firstContext(model), all)) return false;
  model->AddWithRefs(all);
  return true;
}

}  // namespace dryfit::exporting
