using BosFlow.Optics;

namespace BosFlow.Density;

/// <summary>Everything besides the displacement that a density depends on. Copies with one input raised by its uncertainty give the budget.</summary>
/// <param name="Rig">Distances and camera.</param>
/// <param name="Gas">Gas in the flow and around.</param>
/// <param name="Flow">Shape and pressure of the flow.</param>
/// <param name="GladstoneDaleShare">Factor on the Gladstone-Dale coefficient of the flow's gas; 1 = as published.</param>
internal sealed record ConversionInputs(RigGeometry Rig, GasSettings Gas, FlowSettings Flow, double GladstoneDaleShare = 1);
