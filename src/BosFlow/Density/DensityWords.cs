using System.Globalization;

namespace BosFlow.Density;

/// <summary>What the report says of a conversion to density.</summary>
internal static class DensityWords
{
    /// <summary>The source of systematic errors of the displacement.</summary>
    public const string BiasSource = "systematic error of the displacement (interpolation between pixels)";

    /// <summary>The source of errors where the flow is finer than the windows.</summary>
    public const string AveragingSource = "averaging over the window";

    public static string Averaging(SightlineField field) => WindowAveraging.IsPossible(field.Grid)
        ? "estimated from the fourth differences of the field"
        : "not estimated, which takes 7 vectors in either direction";

    /// <summary>The source of a scale left over from the background's motion.</summary>
    public const string BackgroundScaleSource = "scale of the background's motion";

    /// <summary>The source of a shift left over from the background's motion.</summary>
    public static string BackgroundShiftSource(bool alongX) => $"shift of the background, {(alongX ? "x" : "y")}";

    public static string BackgroundScale(BackgroundMotionErrors background) => FormattableString.Invariant($"fitted, ± {1e6 * background.ScaleSigma:G2} px in a million");

    public static string BackgroundShift(BackgroundMotionErrors background) => FormattableString.Invariant($"fitted, ± {background.ShiftSigmaPixels:G2} px");

    public static string Displacement(SightlineField field)
    {
        double[] sigmas = [.. field.SigmaU.Concat(field.SigmaV).Where(double.IsFinite).Order()];
        return sigmas.Length == 0 ? "not known" : FormattableString.Invariant($"± {sigmas[sigmas.Length / 2]:G2} px (median of the mean field)");
    }

    public static string Bias(SubPixelBias bias) =>
        FormattableString.Invariant($"± {bias.Pixels:G2} px in a frame; {100 * bias.PhaseU.Magnitude:F0} % (x) and {100 * bias.PhaseV.Magnitude:F0} % (y) of it are left in the mean of shaken frames");

    public static IReadOnlyList<string> PlanarMethods(DensityRequest request, DensityConversion conversion, int ambientNodes) =>
    [
        Integration(ambientNodes) + " " + OfPath(request),
        "The end walls of a planar flow, or its thinning out towards the ends, are not seen by this measurement: the path length given is taken as filled evenly.",
        .. Conversion(request, conversion),
    ];

    public static IReadOnlyList<string> PathMethods(int ambientNodes) => [Integration(ambientNodes)];

    public static IReadOnlyList<string> RoundMethods(DensityRequest request, DensityConversion conversion, AxisEstimate axis, UnitProfile[] profiles) =>
    [
        $"The flow was taken as round about the {(axis.IsFound ? "axis that mirrors the measured displacement best" : "axis that the case gives")}. At {profiles.Length} stations along it the displacement across the axis was turned into the slope of the projected refractive index, "
        + $"at the distance from the axis at which the diverging lines of sight pass it, and averaged over both sides; {Inversion(request.Flow.Inversion)} "
        + $"The curvature of the rays was corrected by tracing them through the profile found (largest change of a deflection {100 * profiles.Max(profile => profile.CurvedShare):0.###} % of the largest). The uncertainty from the displacement follows from the same matrices, with the correlation of overlapping windows.",
        .. Conversion(request, conversion),
    ];

    public static IReadOnlyList<string> Warnings(DensityRequest request, DensityConversion conversion, DensityFlags[] flags, bool isAnchored)
    {
        var warnings = new List<string>();
        if (!isAnchored)
            warnings.Add("The case names no place where the gas is undisturbed (ambient_edges, ambient_regions under [flow]), or no vector was measured there: only differences of density can be given, no density and no temperature; name such a place.");
        else if (flags.Any(flag => flag.HasFlag(DensityFlags.NotAnchored)))
            warnings.Add("Part of the field is cut off from every place of known density: only differences can be given there (flag not_anchored); name an undisturbed place there too, or mask less.");
        int negative = flags.Count(flag => flag.HasFlag(DensityFlags.NotPositive));
        if (negative > 0)
            warnings.Add(FormattableString.Invariant($"The density came out as zero or negative at {negative} of {flags.Length} nodes (flag not_positive): check scale, distances, path length and the places named as undisturbed."));
        string[] missing = [.. UncertainInputs.Of(new ConversionInputs(request.Rig, request.Gas, request.Flow)).Where(input => input.Raised is null).Select(input => input.Source)];
        if (missing.Length > 0)
            warnings.Add($"No uncertainty is stated for: {string.Join("; ", missing)}. The uncertainty of density and temperature does not contain them; give them in the case file (the keys that end with _sigma and a unit).");
        if (request.Flow.Shape != FlowShape.PathIntegrated && request.Flow.Temperature == TemperatureModel.IdealGas && !conversion.HasTemperature)
            warnings.Add($"No temperature can be given: the molar mass of gas '{request.Gas.Name}' is not known. Give its composition by mole fractions.");
        return warnings;
    }

    private static string Inversion(AbelMethod method) => method switch
    {
        AbelMethod.TwoPoint => "Abel's transform was inverted straight from the slope, taken as linear between samples (no differentiation of measured data, no smoothing).",
        AbelMethod.ThreePoint => "The slope was summed to the projection and Abel's transform inverted by the three-point operator.",
        AbelMethod.Smoothed => "A smooth radial profile (cubic spline with a penalty on its curvature, as strong as the measured slopes make likely) was fitted to the slope: crests may be flattened, and the stated uncertainty does not hold that.",
        _ => "Abel's transform was inverted straight from the slope, taken as a cubic spline (no differentiation of measured data, no smoothing).",
    };

    private static IEnumerable<string> Conversion(DensityRequest request, DensityConversion conversion)
    {
        yield return $"Density follows from the refractive index by the Gladstone-Dale relation, from the undisturbed gas of {Text(conversion.SurroundingDensity)} kg/m³ around.";
        if (conversion.HasTemperature)
        {
            yield return $"Temperature is that of an ideal gas at {Text(request.Flow.FlowPressurePascal ?? request.Gas.AmbientPressurePascal)} Pa with the composition given; of a flow that fluctuates it is the temperature of the mean density, which is lower than the mean temperature.";
        }
    }

    private static string Integration(int ambientNodes) =>
        "The measured gradient was integrated over the picture by weighted least squares, each vector with its own uncertainty as weight"
        + (ambientNodes > 0 ? FormattableString.Invariant($", from {ambientNodes} nodes whose gas the case names as undisturbed.") : "; no node is named as undisturbed.")
        + " Masked parts are gone round. The uncertainty from the displacement was found by pushing 256 random draws of its errors, with the correlation of overlapping windows, through the same equations; it is itself uncertain by 4 %.";

    private static string OfPath(DensityRequest request) =>
        $"The integral was divided by the path length of {Text(request.Rig.PathLengthMetres!.Value * 1e3)} mm.";

    private static string Text(double value) => value.ToString("G6", CultureInfo.InvariantCulture);
}
