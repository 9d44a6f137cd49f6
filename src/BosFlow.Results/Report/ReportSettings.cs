using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Results.Report;

/// <summary>The settings of a run as lines of a table: what, value with unit.</summary>
internal static class ReportSettings
{
    public static IEnumerable<IReadOnlyList<string>> Rows(RunSummary summary)
    {
        ExperimentCase c = summary.Case;
        yield return ["Footage", summary.Footage.Description];
        yield return ["Size of a frame", $"{summary.Reference.Image.Width} × {summary.Reference.Image.Height} px"];
        if (c.Footage.FrameRateHz is { } rate)
            yield return ["Frame rate, as given", $"{Figures.Exact(rate)} Hz"];
        yield return ["Reference picture", $"{summary.Reference.Description} ({Figures.Count(summary.Reference.FrameCount, "frame", "frames")})"];
        yield return ["Region", Region(c)];
        yield return ["Motion taken out", Motion(c.Registration.Motion)];
        foreach (IReadOnlyList<string> row in Displacement(c.Displacement))
            yield return row;
        if (c.Rig is { } rig)
        {
            foreach (IReadOnlyList<string> row in Rig(rig))
                yield return row;
        }

        if (summary.Scale is { } scale)
        {
            foreach (IReadOnlyList<string> row in Scale(c.Gas, scale))
                yield return row;
        }
    }

    public static string Motion(MotionModel model) => model switch
    {
        MotionModel.None => "none",
        MotionModel.Shift => "shift",
        MotionModel.Rigid => "shift and rotation",
        MotionModel.Similarity => "shift, rotation and scale",
        MotionModel.Homography => "plane-to-plane projection (homography)",
        _ => throw new ArgumentOutOfRangeException(nameof(model), model, null),
    };

    private static string Region(ExperimentCase c)
    {
        string area = c.Region.Interest is { } r ? $"{r.Width} × {r.Height} px from ({r.X}, {r.Y})" : "the whole picture";
        return $"{area}; {Figures.Count(c.Region.Exclude.Count, "polygon", "polygons")} masked; {(c.Region.Flow.Count == 0 ? "no flow region given" : $"flow within {Figures.Count(c.Region.Flow.Count, "polygon", "polygons")}")}";
    }

    private static IEnumerable<IReadOnlyList<string>> Displacement(DisplacementSettings d)
    {
        yield return ["Interrogation window", $"{d.WindowPixels} × {d.WindowPixels} px, {(d.Weighting == WindowWeighting.Gaussian ? "Gaussian weighting" : "equal weights")}"];
        yield return ["Distance between vectors", $"{d.SpacingPixels} px (overlap {Figures.Text(100.0 * Math.Max(0, d.WindowPixels - d.SpacingPixels) / d.WindowPixels)} %)"];
        yield return ["Passes", $"coarse pass with {d.CoarseWindowPixels} px windows, then {d.Passes} with image deformation"];
        yield return ["Sub-pixel shift", $"{SubPixel(d.SubPixel)}; B-spline interpolation of order {(int)d.Interpolation}"];
        yield return ["Smoothings of the predictor between passes", $"{d.PredictorSmoothings} (the result itself is not smoothed)"];
        yield return ["Lowest correlation", Figures.Exact(d.LowestCorrelation)];
        yield return ["Outlier test", $"normalised median, threshold {Figures.Exact(d.OutlierThreshold)}, noise {Figures.Exact(d.OutlierNoisePixels)} px; outliers {(d.ReplaceOutliers ? "replaced by the median of their neighbours and flagged" : "left out and flagged")}"];
    }

    public static string SubPixel(SubPixelMethod method) => method == SubPixelMethod.LeastSquares
        ? "least-squares matching of grey levels with gain and offset a window"
        : "three-point Gaussian fit of the correlation peak";

    private static IEnumerable<IReadOnlyList<string>> Rig(RigGeometry rig)
    {
        yield return ["Lens (entrance pupil) to flow", Length(rig.LensToFlowMetres, rig.LensToFlowSigmaMetres)];
        yield return ["Flow to background", Length(rig.FlowToBackgroundMetres, rig.FlowToBackgroundSigmaMetres)];
        if (rig.FocalLengthMetres is { } focal)
            yield return ["Focal length", Length(focal, rig.FocalLengthSigmaMetres)];
        if (rig.PixelPitchMetres is { } pitch)
            yield return ["Pixel pitch", $"{Figures.Exact(pitch * 1e6)} µm"];
        if (rig.FNumber is { } number)
            yield return ["f-number", Figures.Exact(number)];
        yield return ["Path length through the flow", rig.PathLengthMetres is { } path ? Length(path, rig.PathLengthSigmaMetres) : "not given: path integrals only"];
        if (rig.BackgroundScaleRelativeSigma is { } scale)
            yield return ["Standard uncertainty of the scale", $"{Figures.Exact(Math.Round(scale * 100, 6))} %"];
    }

    private static string Length(double metres, double? sigma) =>
        $"{Figures.Exact(metres * 1000)} mm{(sigma is { } value ? $" ± {Figures.Exact(value * 1000)} mm" : string.Empty)}";

    private static IEnumerable<IReadOnlyList<string>> Scale(GasSettings gas, OpticalScale scale)
    {
        yield return ["Scale in the background plane", $"{Figures.Text(scale.BackgroundMetresPerPixel * 1000)} mm/px"];
        yield return ["Scale in the plane of the flow", $"{Figures.Text(scale.FlowMetresPerPixel * 1000)} mm/px"];
        GasProperties properties = GasProperties.Of(gas);
        yield return ["Gas", $"{properties.Description} at {Figures.Exact(gas.WavelengthMetres * 1e9)} nm"];
        yield return ["Surroundings", Surroundings(properties)];
        yield return ["Gladstone-Dale coefficient", $"{Figures.Constant(scale.GladstoneDaleM3PerKg)} m³ kg⁻¹ ± {Figures.Text(100 * properties.FlowGladstoneDaleRelativeSigma)} % ({properties.FlowGladstoneDaleSource})"];
        yield return ["Refractive index of the surroundings", $"1 + {Figures.Constant(scale.AmbientIndex - 1)}"];
        yield return ["Deflection angle for 1 px", $"{Figures.Text(scale.DeflectionPerPixel * 1e6)} µrad"];
        yield return ["Path-integrated density gradient for 1 px", $"{Figures.Text(scale.DensityGradientPathPerPixel)} kg m⁻³"];
        if (scale.DensityGradientPerPixel is { } gradient)
            yield return ["Density gradient for 1 px", $"{Figures.Text(gradient)} kg m⁻⁴"];
    }

    private static string Surroundings(GasProperties gas)
    {
        string temperature = gas.AmbientTemperature is { } kelvin ? $"{Figures.Exact(Math.Round(kelvin - 273.15, 3))} °C{Sigma(gas.AmbientTemperatureSigma, "°C")}, " : string.Empty;
        return $"{Figures.Exact(Math.Round(gas.AmbientPressure, 1))} Pa{Sigma(gas.AmbientPressureSigma, "Pa")}, {temperature}{Figures.Exact(Math.Round(gas.AmbientDensity, 4))} kg m⁻³{Sigma(gas.AmbientDensitySigma, "kg m⁻³")}";
    }

    private static string Sigma(double? value, string unit) => value is { } given ? $" ± {Figures.Text(given)} {unit}" : string.Empty;
}
