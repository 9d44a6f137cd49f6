using BosFlow.Optics;
using BosFlow.Synthesis;

namespace BosFlow.Planning;

/// <summary>The optics of the layer beside a heated vertical plate in air.</summary>
/// <remarks>
/// Grashof number Gr = g (T_w - T_0) x^3 / (T_0 nu^2), viscosity by Sutherland's law and density at the mean of wall and surroundings; the temperature of the similarity
/// solution gives the density, and K L d rho/dy the deflection away from the wall.
/// </remarks>
internal static class PlateOptics
{
    private const double Gravity = 9.80665;
    private const double LargestRayleigh = 1e9;

    /// <summary>The layer at the height asked for.</summary>
    public static FlowOptics Of(ExpectedFlow.HeatedPlate flow, GasSettings settings)
    {
        GasProperties gas = GasProperties.Of(settings);
        if (!GasModel.AirIsAround(settings) || !SceneGas.Of(settings).IsOneGas)
            throw new ConfigurationException(["A heated plate is planned for in air alone; leave the gas at air."]);
        double ambient = gas.AmbientTemperature!.Value;
        double wall = flow.WallTemperatureKelvin;
        if (!(wall > ambient))
            throw new ConfigurationException([FormattableString.Invariant($"The plate of {wall - 273.15:F1} C is not hotter than the air of {ambient - 273.15:F1} C; give the temperature of the heated plate.")]);
        double film = (wall + ambient) / 2;
        double viscosity = Sutherland(film) / (gas.AmbientDensity * ambient / film);
        double grashof = Gravity * (wall - ambient) / ambient * Math.Pow(flow.HeightMetres, 3) / (viscosity * viscosity);
        if (grashof * NaturalConvectionLayer.Prandtl > LargestRayleigh)
            throw new ConfigurationException([FormattableString.Invariant($"At {1e3 * flow.HeightMetres:F0} mm above its lower edge the layer beside the plate is turbulent (Rayleigh number {grashof * NaturalConvectionLayer.Prandtl:E1}, laminar up to 1e9); choose a lower place.")]);
        double unit = flow.HeightMetres * Math.Pow(4 / grashof, 0.25);
        double DensityAt(double eta) => gas.AmbientDensity * ambient / (ambient + ((wall - ambient) * NaturalConvectionLayer.Temperature(eta)));
        double size = unit * HalfwayOut(DensityAt);
        double wallDensity = DensityAt(0);
        double wallSlope = -wallDensity / wall * (wall - ambient) * NaturalConvectionLayer.WallSlope / unit;
        double step = 0.01;
        // d rho/dy over its value at the wall, by central differences; the wall's own is known exactly.
        double At(double t)
        {
            double eta = t * size / unit;
            double from = Math.Max(0, eta - step);
            return (DensityAt(eta + step) - DensityAt(from)) / (eta + step - from) / unit / wallSlope;
        }

        // The density falls faster where the gas is already cooler: the largest slope lies a little off the wall.
        double largest = Enumerable.Range(0, 400).Max(i => At(0.01 * i));
        return new FlowOptics
        {
            Description = FormattableString.Invariant($"air beside a vertical plate of {wall:F0} K, {1e3 * flow.HeightMetres:G4} mm above its lower edge, Grashof number {grashof:E2}"),
            Source = "laminar natural convection, similarity solution of S. Ostrach 1953, NACA Report 1111, Prandtl number 0.71; viscosity by Sutherland's law",
            PeakRadians = gas.FlowGladstoneDale * flow.PathLengthMetres * wallSlope * largest / gas.AmbientIndex,
            SizeMetres = size,
            ExtentMetres = NaturalConvectionLayer.End * unit,
            HalfDepthMetres = flow.PathLengthMetres / 2,
            Density = wallDensity,
            Temperature = wall,
            Profile = new DeflectionProfile(t => At(t) / largest, NaturalConvectionLayer.End * unit / size, odd: false),
        };
    }

    /// <summary>Deflection right at the plate, rad; a little less than the largest.</summary>
    public static double WallDeflection(ExpectedFlow.HeatedPlate flow, GasSettings settings)
    {
        FlowOptics optics = Of(flow, settings);
        return optics.PeakRadians * optics.Profile.First;
    }

    /// <summary>Dynamic viscosity of air, Pa s: 1.458e-6 T^1.5 / (T + 110.4) (U.S. Standard Atmosphere 1976).</summary>
    private static double Sutherland(double kelvin) => 1.458e-6 * Math.Pow(kelvin, 1.5) / (kelvin + 110.4);

    /// <summary>Where the difference of density is down to 1/e of that at the wall.</summary>
    private static double HalfwayOut(Func<double, double> density)
    {
        double far = density(NaturalConvectionLayer.End);
        double low = 0;
        double high = NaturalConvectionLayer.End;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if ((far - density(middle)) / (far - density(0)) > Math.Exp(-1))
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }
}
