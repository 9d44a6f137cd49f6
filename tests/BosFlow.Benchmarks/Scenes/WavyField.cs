using BosFlow.Synthesis;

namespace BosFlow.Benchmarks.Scenes;

/// <summary>
/// A smooth field with displacements up to 9 px and strains up to 1 %:
/// u = 5.37 + 3.0 sin(2 pi x / 1920 + 0.3) cos(2 pi y / 1620), v = -3.21 + 2.5 cos(2 pi x / 2160 + 0.5) sin(2 pi y / 1440 + 0.7), px.
/// </summary>
/// <param name="Sign">1 or -1: the field or its opposite.</param>
internal sealed record WavyField(double Sign) : IFlowField
{
    public FlowSample At(double x, double y) => FlowSample.Prescribed(
        Sign * (5.37 + (3.0 * Math.Sin((Math.Tau * x / 1920) + 0.3) * Math.Cos(Math.Tau * y / 1620))),
        Sign * (-3.21 + (2.5 * Math.Cos((Math.Tau * x / 2160) + 0.5) * Math.Sin((Math.Tau * y / 1440) + 0.7))));
}
