using System.Globalization;

namespace BosFlow.Optics;

/// <summary>Makes the factors that turn px into optical and gas quantities from rig and gas.</summary>
/// <remarks>
/// u = -Z_D eps / S, hence eps = -(S / Z_D) u; integral of dn/dx along the ray = n0 eps; of d rho/dx = n0 eps / K (paraxial ray optics,
/// e.g. M. Raffel 2015, Exp. Fluids 56:60). A ray bends towards higher index, the dot's image moves the other way: seen through a hot plume the
/// dots move inward to its axis.
/// </remarks>
public static class OpticalScaling
{
    // Labels of focal length and pixel pitch are rounded and a lens breathes: 10 % is beyond any of it and means a wrong number.
    private const double LargestScaleMismatch = 0.10;

    /// <summary>The factors for a rig and a gas.</summary>
    /// <param name="rig">Distances, and either the scale in the background plane or focal length and pixel pitch.</param>
    /// <param name="gas">Gas, wavelength and ambient state.</param>
    /// <returns>The factors.</returns>
    /// <exception cref="ConfigurationException">Something is missing, out of range or contradicts itself; one sentence for each problem.</exception>
    public static OpticalScale From(RigGeometry rig, GasSettings gas)
    {
        ArgumentNullException.ThrowIfNull(rig);
        ArgumentNullException.ThrowIfNull(gas);
        List<string> problems = RigProblems(rig);
        if (problems.Count > 0)
            throw new ConfigurationException(problems);

        double background = BackgroundScale(rig);
        GasProperties properties = GasProperties.Of(gas);
        double coefficient = properties.FlowGladstoneDale;
        double index = properties.AmbientIndex;
        double deflection = -background / rig.FlowToBackgroundMetres;
        double densityPath = index * deflection / coefficient;
        return new OpticalScale
        {
            BackgroundMetresPerPixel = background,
            FlowMetresPerPixel = background * rig.LensToFlowMetres / BackgroundDistance(rig),
            DeflectionPerPixel = deflection,
            IndexGradientPathPerPixel = index * deflection,
            DensityGradientPathPerPixel = densityPath,
            DensityGradientPerPixel = rig.PathLengthMetres is double length ? densityPath / length : null,
            GladstoneDaleM3PerKg = coefficient,
            AmbientIndex = index,
        };
    }

    /// <summary>Scale in the background plane: the one measured, else the one that follows from focal length, pixel pitch and distances.</summary>
    /// <param name="rig">Distances, and either of the two.</param>
    /// <returns>m/px.</returns>
    /// <exception cref="ConfigurationException">Something is missing, out of range or contradicts itself; one sentence for each problem.</exception>
    public static double BackgroundMetresPerPixel(RigGeometry rig)
    {
        ArgumentNullException.ThrowIfNull(rig);
        List<string> problems = RigProblems(rig);
        return problems.Count == 0 ? BackgroundScale(rig) : throw new ConfigurationException(problems);
    }

    /// <summary>Diameter of the geometric blur in the flow plane.</summary>
    /// <param name="rig">Distances and camera.</param>
    /// <returns>Diameter, m; null where focal length or f-number is not known.</returns>
    public static double? FlowPlaneBlurMetres(RigGeometry rig)
    {
        ArgumentNullException.ThrowIfNull(rig);
        return rig is { FocalLengthMetres: double f, FNumber: double n }
            ? ThinLens.FlowPlaneBlur(f, n, rig.LensToFlowMetres, rig.FlowToBackgroundMetres)
            : null;
    }

    /// <summary>Density of the surrounding gas: the one given, else p M / (R T) of an ideal gas.</summary>
    /// <param name="gas">Gas and ambient state.</param>
    /// <returns>kg/m3.</returns>
    /// <exception cref="ConfigurationException">The gas cannot be used; holds every problem.</exception>
    public static double AmbientDensityKgM3(GasSettings gas) => GasProperties.Of(gas).AmbientDensity;

    private static double BackgroundDistance(RigGeometry rig) => rig.LensToFlowMetres + rig.FlowToBackgroundMetres;

    private static double? LensScale(RigGeometry rig) =>
        rig is { FocalLengthMetres: double f, PixelPitchMetres: double pitch }
            ? ThinLens.BackgroundMetresPerPixel(f, BackgroundDistance(rig), pitch)
            : null;

    private static double BackgroundScale(RigGeometry rig) => rig.BackgroundMetresPerPixel ?? LensScale(rig)!.Value;

    private static List<string> RigProblems(RigGeometry rig)
    {
        var problems = new List<string>();
        Require(problems, "distance from the lens to the flow", rig.LensToFlowMetres, 1e3, 1, "m");
        Require(problems, "distance from the flow to the background", rig.FlowToBackgroundMetres, 1e3, 1, "m");
        Require(problems, "scale in the background plane", rig.BackgroundMetresPerPixel, 1, 1e3, "mm/px");
        Require(problems, "focal length", rig.FocalLengthMetres, 10, 1e3, "mm");
        Require(problems, "pixel pitch", rig.PixelPitchMetres, 1e-3, 1e6, "um");
        Require(problems, "f-number", rig.FNumber, 1e3, 1, string.Empty);
        Require(problems, "path length through the flow", rig.PathLengthMetres, 1e3, 1, "m");
        if (problems.Count == 0 && rig.FocalLengthMetres >= BackgroundDistance(rig))
            problems.Add($"The focal length {Text(rig.FocalLengthMetres.Value * 1e3)} mm is not shorter than the distance to the background, {Text(BackgroundDistance(rig) * 1e3)} mm; no lens can focus there, so check both.");
        if (problems.Count == 0 && rig.PathLengthMetres >= 2 * BackgroundDistance(rig))
            problems.Add($"The path length through the flow, {Text(rig.PathLengthMetres.Value * 1e3)} mm, does not fit between lens and background ({Text(BackgroundDistance(rig) * 1e3)} mm); check both.");
        if (problems.Count > 0)
            return problems;

        double? fromLens = LensScale(rig);
        if (rig.BackgroundMetresPerPixel is null && fromLens is null)
            problems.Add("The scale is not known: give the scale in the background plane in mm/px, or both focal length and pixel pitch.");
        else if (rig.BackgroundMetresPerPixel is double given && fromLens is double computed && Math.Abs((given / computed) - 1) > LargestScaleMismatch)
            problems.Add($"The scale given, {Text(given * 1e3)} mm/px, and the scale from focal length, pixel pitch and distances, {Text(computed * 1e3)} mm/px, differ by more than 10 %; correct one of them or leave the lens's values out.");
        return problems;
    }

    private static void Require(List<string> problems, string what, double? value, double limit, double factor, string unit)
    {
        if (value is double given && !(given > 0 && given <= limit))
            problems.Add($"The {what} is {Text(given * factor)} {unit}".TrimEnd() + $"; it must be greater than 0 and at most {Text(limit * factor)} {unit}".TrimEnd() + ".");
    }

    private static string Text(double value) => value.ToString("G6", CultureInfo.InvariantCulture);
}
