using BosFlow.Density;
using BosFlow.Pipeline;
using BosFlow.Results.Maps;
using BosFlow.Results.Plots;

namespace BosFlow.Results.Tests;

/// <summary>The pictures of the invented densities, drawn once for all tests that only look at them.</summary>
internal static class DrawnDensity
{
    private static readonly Lazy<RunPicture[]> RoundPictures = new(() => Draw(SampleDensity.Axisymmetric()));
    private static readonly Lazy<RunPicture[]> PlanarPictures = new(() => Draw(SampleDensity.Planar()));
    private static readonly Lazy<RunPicture[]> PathPictures = new(() => Draw(SampleDensity.PathIntegrated()));
    private static readonly Lazy<RunPicture[]> DifferencePictures = new(() => Draw(SampleDensity.NotAnchored(SampleDensity.Planar())));

    public static RunPicture[] Round => RoundPictures.Value;

    public static RunPicture[] Planar => PlanarPictures.Value;

    public static RunPicture[] PathIntegrated => PathPictures.Value;

    public static RunPicture[] NotAnchored => DifferencePictures.Value;

    public static RunPicture[] Draw(DensityResult density)
    {
        RunSummary summary = SampleDensity.Summary(density);
        return [.. DensityMaps.Drawings(summary).Concat(DensityPlots.Drawings(summary)).Select(draw => draw())];
    }
}
