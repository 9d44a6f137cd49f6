using BosFlow.Density;

namespace BosFlow.Results.Runs;

/// <summary>The shape of a flow as the case file writes it.</summary>
internal static class FlowWords
{
    public static string Word(FlowShape shape) => shape switch
    {
        FlowShape.PathIntegrated => "path-integrated",
        FlowShape.Planar => "planar",
        FlowShape.Axisymmetric => "axisymmetric",
        _ => throw new ArgumentOutOfRangeException(nameof(shape), shape, null),
    };
}
