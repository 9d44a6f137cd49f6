using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Pipeline;

namespace BosFlow.Results.Tests;

/// <summary>Invented densities on the grid of <see cref="SampleRun"/>: a warm round plume about a leaning axis, a warm planar blob, and its path integral.</summary>
internal static class SampleDensity
{
    private const double Ambient = 1.225;
    private const double PressureOverGasConstant = 101325 / 287.05;
    private const double MetresPerPixel = 0.186e-3;
    private static readonly NodeGrid Grid = SampleRun.Grid;

    public static RunSummary Summary(DensityResult density)
    {
        RunSummary summary = SampleRun.Summary();
        return summary with
        {
            Case = summary.Case with { Flow = new FlowSettings { Shape = density.Shape, AmbientEdges = PictureEdge.Left | PictureEdge.Right } },
            Density = density,
        };
    }

    /// <summary>A plume whose axis leans by 3 degrees, widening upwards; stations every 16 px from the lower edge.</summary>
    public static DensityResult Axisymmetric(int stations = 28)
    {
        const double lean = 3 * Math.PI / 180;
        (double sine, double cosine) = Math.SinCos(lean);
        (double startX, double startY) = (330, 463.5);
        float[] density = new float[Grid.Count];
        float[] sigma = new float[Grid.Count];
        var flags = new DensityFlags[Grid.Count];
        for (int i = 0; i < Grid.Count; i++)
        {
            double x = Grid.X(i % Grid.Columns) - startX;
            double y = startY - Grid.Y(i / Grid.Columns);
            double axial = (x * sine) + (y * cosine);
            double radius = Math.Abs((x * cosine) - (y * sine));
            (density[i], sigma[i]) = ((float)(Plume(axial, radius) + Wiggle(i, radius)), (float)Sigma(radius));
            if (SampleRun.Frame(0).Field.Flags[i] == VectorFlags.Masked || radius > 240)
                (density[i], sigma[i], flags[i]) = (float.NaN, float.NaN, DensityFlags.NotMeasured);
            else if (SampleRun.Frame(0).Field.Flags[i] == VectorFlags.LowTexture)
                flags[i] = DensityFlags.Bridged;
            else if (radius < 60 && axial is > 300 and < 340)
                flags[i] = DensityFlags.Asymmetric;
        }

        return With(FlowShape.Axisymmetric, density, sigma, flags) with
        {
            Axis = new AxisEstimate(341.4, 246.2, 87, 0.21, 0.12, 0.034, true),
            Profiles = [.. Enumerable.Range(0, stations).Select(s => Profile(s, startX + (16 * s * sine), startY - (16 * s * cosine)))],
            Methods = ["The density was obtained by inverting the deflection along 28 lines across the axis, each half on its own and both together.", "The density at the largest radius was taken as that of the surroundings, 1.225 kg m⁻³."],
            Warnings = ["The two sides of the axis differ by more than three standard uncertainties at 4 % of the places; the flow is not quite round there."],
            Checks = [new("Residual of the two sides in units of its sigma", 1.08, "1", "about 1", true), new("Asymmetry of the displacement", 0.34, "1", "below 0.2", false), new("Shift of the axis between the two halves of its length", 0.4, "px", "below 1 px", true)],
        };
    }

    /// <summary>A warm blob in a channel of known length.</summary>
    public static DensityResult Planar()
    {
        float[] density = new float[Grid.Count];
        float[] sigma = new float[Grid.Count];
        for (int i = 0; i < Grid.Count; i++)
        {
            double radius = Math.Sqrt(Square(Grid.X(i % Grid.Columns) - 300) + Square(Grid.Y(i / Grid.Columns) - 220));
            density[i] = (float)(Ambient - (0.5 * Math.Exp(-Square(radius / 120))) + (0.004 * Math.Sin(i * 1.7)));
            sigma[i] = (float)(0.01 + (0.01 * Math.Exp(-Square(radius / 150))));
        }

        return With(FlowShape.Planar, density, sigma, new DensityFlags[Grid.Count]) with
        {
            NormalisedResidual = [.. Enumerable.Range(0, Grid.Count).Select(i => (float)(0.9 + (0.5 * Math.Sin(i * 2.3)) + (i % 97 == 0 ? 3 : 0)))],
        };
    }

    /// <summary>The path integral of the blob, nothing known of its depth.</summary>
    public static DensityResult PathIntegrated()
    {
        DensityResult planar = Planar();
        ScalarField density = planar.Fields[0];
        return planar with
        {
            Shape = FlowShape.PathIntegrated,
            Fields = [new ScalarField("density_path", "density difference to the surroundings, integrated along the line of sight", "kg m-2", Grid, [.. density.Values.Select(v => (v - 1.225f) * 0.08f)], [.. density.Sigma.Select(v => v * 0.08f)])],
            SigmaRandom = [.. density.Sigma.Select(v => v * 0.04f)],
            Budget = null,
        };
    }

    /// <summary>A result of which nothing could be determined.</summary>
    public static DensityResult Nothing(DensityResult like) => like with
    {
        Fields = [.. like.Fields.Select(f => f with { Values = Unknown(f.Values.Length), Sigma = Unknown(f.Values.Length) })],
        SigmaRandom = Unknown(like.SigmaRandom.Length),
        Flags = [.. like.Flags.Select(_ => DensityFlags.NotMeasured)],
        NormalisedResidual = Unknown(like.NormalisedResidual.Length),
        Profiles = [.. like.Profiles.Select(Unknown)],
        Budget = null,
    };

    /// <summary>The same without temperature.</summary>
    public static DensityResult WithoutTemperature(DensityResult like) => like with
    {
        Fields = [.. like.Fields.Where(f => f.Name != "temperature")],
        Profiles = [.. like.Profiles.Select(p => p with { Temperature = Unknown(p.Temperature), SigmaTemperature = Unknown(p.Temperature) })],
        Budget = like.Budget is not { } budget ? null : budget with
        {
            TemperatureKelvin = double.NaN,
            SigmaTemperatureKelvin = double.NaN,
            Lines = [.. budget.Lines.Select(l => l with { TemperatureKelvin = double.NaN })],
        },
    };

    /// <summary>The same where no place of known density is given: differences to the mean.</summary>
    public static DensityResult NotAnchored(DensityResult like)
    {
        ScalarField density = like.Fields[0];
        return WithoutTemperature(like) with
        {
            Fields = [density with { Name = "density_difference", Title = "density, difference to the mean of its part of the field", Values = [.. density.Values.Select(v => v - 1.12f)] }],
            Flags = [.. like.Flags.Select(f => f | DensityFlags.NotAnchored)],
            Budget = null,
        };
    }

    /// <summary>A result without any field: there was no axis, or no displacement.</summary>
    public static DensityResult Refused(string reason) => new()
    {
        Shape = FlowShape.Axisymmetric,
        Grid = Grid,
        Fields = [],
        SigmaRandom = [],
        Flags = [.. Enumerable.Repeat(DensityFlags.NotMeasured, Grid.Count)],
        Warnings = [reason],
    };

    private static DensityResult With(FlowShape shape, float[] density, float[] sigma, DensityFlags[] flags)
    {
        float[] temperature = [.. density.Select(v => (float)(PressureOverGasConstant / v))];
        float[] sigmaTemperature = [.. temperature.Zip(density, sigma).Select(t => t.First * t.Third / t.Second)];
        int place = Array.IndexOf(density, density.Where(float.IsFinite).Min());
        return new DensityResult
        {
            Shape = shape,
            Grid = Grid,
            Fields =
            [
                new ScalarField("density", "density", "kg m-3", Grid, density, sigma),
                new ScalarField("refractive_index", "refractive index", "1", Grid, [.. density.Select(v => 1 + (2.265e-4f * v))], [.. sigma.Select(v => 2.265e-4f * v)]),
                new ScalarField("temperature", "temperature", "K", Grid, temperature, sigmaTemperature),
            ],
            SigmaRandom = [.. sigma.Select(v => v * 0.8f)],
            Flags = flags,
            Budget = Budget(Grid.X(place % Grid.Columns), Grid.Y(place / Grid.Columns), density[place], temperature[place]),
            Methods = ["The gradients were integrated by weighted least squares, each vector with its own standard uncertainty."],
        };
    }

    private static UncertaintyBudget Budget(double x, double y, double density, double temperature)
    {
        BudgetLine Line(string source, string input, double value) => new(source, input, value, temperature * value / density, true);
        BudgetLine Unstated(string source) => new(source, "not stated", 0, 0, false);
        BudgetLine[] lines =
        [
            Line("measured displacement", "0.011 px a vector", 0.021), Line("distance from flow to background", "800 mm ± 5 mm", 0.0044),
            Line("Gladstone-Dale coefficient", "2.265e-4 m³ kg⁻¹ ± 0.3 %", 0.0021), Line("density of the surroundings", "1.225 kg m⁻³ ± 0.002 kg m⁻³", 0.002),
            Unstated("scale in the background plane"), Unstated("pressure in the flow"),
        ];
        double sigma = Math.Sqrt(lines.Sum(l => Square(l.DensityKgM3)));
        return new UncertaintyBudget { X = x, Y = y, DensityKgM3 = density, SigmaDensityKgM3 = sigma, TemperatureKelvin = temperature, SigmaTemperatureKelvin = temperature * sigma / density, Lines = lines };
    }

    private static RadialProfile Profile(int station, double x, double y)
    {
        // Radii of a profile end where the picture does.
        int count = (int)Math.Min(Math.Min(x, SampleRun.Width - x) / 8, 30);
        double[] radius = [.. Enumerable.Range(0, count).Select(i => i * 8 * MetresPerPixel)];
        double[] density = [.. radius.Select((r, i) => Plume(16 * station, r / MetresPerPixel) + Wiggle((station * 31) + i, r / MetresPerPixel))];
        double[] sigma = [.. radius.Select(r => Sigma(r / MetresPerPixel))];
        double[] temperature = [.. density.Select(v => PressureOverGasConstant / v)];
        return new RadialProfile
        {
            Station = station,
            AxialMetres = 16 * station * MetresPerPixel,
            AxisX = x,
            AxisY = y,
            RadiusMetres = radius,
            Density = density,
            SigmaDensity = sigma,
            SigmaDensityRandom = [.. sigma.Select(v => 0.8 * v)],
            Temperature = temperature,
            SigmaTemperature = [.. temperature.Select((t, i) => t * sigma[i] / density[i])],
            DensityLeft = [.. density.Select((v, i) => v + (sigma[i] * Math.Sin(i * 1.1)))],
            DensityRight = [.. density.Select((v, i) => v - (sigma[i] * Math.Sin(i * 1.1)))],
            Flags = [.. radius.Select((_, i) => i == 3 && station % 5 == 0 ? DensityFlags.Bridged | DensityFlags.Asymmetric : DensityFlags.None)],
        };
    }

    private static double Plume(double axial, double radius)
    {
        double width = 30 + (0.12 * Math.Max(axial, 0));
        double depth = 0.75 / (1 + (Math.Max(axial, 0) / 260));
        return Ambient - (depth * Math.Exp(-Square(radius / width)));
    }

    private static double Sigma(double radius) => 0.006 + (0.016 / (1 + (radius / 25)));

    private static double Wiggle(int i, double radius) => 0.7 * Sigma(radius) * Math.Sin(i * 2.1);

    private static double Square(double value) => value * value;

    private static float[] Unknown(int length) => [.. Enumerable.Repeat(float.NaN, length)];

    private static double[] Unknown(double[] like) => [.. like.Select(_ => double.NaN)];

    private static RadialProfile Unknown(RadialProfile p) => p with
    {
        Density = Unknown(p.Density), SigmaDensity = Unknown(p.Density), SigmaDensityRandom = Unknown(p.Density), Temperature = Unknown(p.Density),
        SigmaTemperature = Unknown(p.Density), DensityLeft = Unknown(p.Density), DensityRight = Unknown(p.Density),
        Flags = [.. p.Flags.Select(_ => DensityFlags.NotMeasured)],
    };
}
