using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Speckle;
using BosFlow.Statistics;

namespace BosFlow.Tests.Density;

public sealed class DensityBudgetTests
{
    private static readonly RigGeometry Rig = new()
    {
        LensToFlowMetres = 1.2,
        LensToFlowSigmaMetres = 0.002,
        FlowToBackgroundMetres = 0.9,
        FlowToBackgroundSigmaMetres = 0.0015,
        BackgroundMetresPerPixel = 1.75e-3,
        BackgroundScaleRelativeSigma = 0.001,
        PathLengthMetres = 0.1,
        PathLengthSigmaMetres = 3e-4,
    };

    private static readonly GasSettings Gas = new()
    {
        GladstoneDaleM3PerKg = 2.2e-4,
        GladstoneDaleRelativeSigma = 0.003,
        AmbientTemperatureKelvin = 295,
        AmbientTemperatureSigmaKelvin = 0.5,
        AmbientPressurePascal = 98000,
        AmbientPressureSigmaPascal = 120,
    };

    private static readonly FieldStatistics Blob = KnownDisplacement.Of(new NodeGrid(20, 12, 8, 13, 13), (x, y) => DensityScene.BlobDisplacement(x, y, 0.4 * DensityScene.Peak), 1e-3);

    [Fact]
    public void Budget_EveryInput_IsTheDerivativeTimesItsSigma()
    {
        UncertaintyBudget budget = Planar(Rig, Gas);

        double ambient = GasProperties.Of(Gas).AmbientDensity;
        (double rho, double t) = (budget.DensityKgM3, budget.TemperatureKelvin);
        double difference = rho - ambient;
        double lensToBackground = Rig.LensToFlowMetres + Rig.FlowToBackgroundMetres;
        // rho = rho0 + n0 S^2 Z_A I / (Z_B Z_D L K), I the integral of the displacement, px2; T = p M / (R rho); n0 changes with rho0 by K, which is negligible here.
        Check(budget, "distance from lens to flow", difference * ((1 / Rig.LensToFlowMetres) - (1 / lensToBackground)) * 0.002);
        Check(budget, "distance from flow to background", -difference * ((1 / Rig.FlowToBackgroundMetres) + (1 / lensToBackground)) * 0.0015);
        Check(budget, "scale in the background plane", 2 * difference * 0.001);
        Check(budget, "path length through the flow", -difference / 0.1 * 3e-4);
        Check(budget, "Gladstone-Dale coefficient", -difference * 0.003);
        Check(budget, "temperature of the surroundings", -ambient / 295 * 0.5);
        double byPressure = ambient / 98000 * 120;
        Check(budget, "pressure of the surroundings", byPressure, (t / 98000 * 120) - (t / rho * byPressure));
    }

    [Fact]
    public void Budget_Total_IsTheRootOfTheSumOfSquares()
    {
        UncertaintyBudget budget = Planar(Rig, Gas);

        Assert.Equal(Math.Sqrt(budget.Lines.Sum(line => line.DensityKgM3 * line.DensityKgM3)), budget.SigmaDensityKgM3, 1e-12);
        Assert.Equal(Math.Sqrt(budget.Lines.Sum(line => line.TemperatureKelvin * line.TemperatureKelvin)), budget.SigmaTemperatureKelvin, 1e-9);
        Assert.Equal(budget.Lines.OrderByDescending(line => line.DensityKgM3).Select(line => line.Source), budget.Lines.Select(line => line.Source));
        Assert.All(budget.Lines, line => Assert.True(line.IsStated));
    }

    [Fact]
    public void Budget_DensityOfTheSurroundingsGiven_CountsInFull()
    {
        UncertaintyBudget budget = Planar(Rig, Gas with { AmbientDensityKgM3 = 1.15, AmbientDensitySigmaKgM3 = 0.004 });

        Check(budget, "density of the surroundings", 0.004);
        // The pressure then moves the temperature alone.
        Check(budget, "pressure of the surroundings", 0, budget.TemperatureKelvin / 98000 * 120);
        Assert.DoesNotContain(budget.Lines, line => line.Source == "temperature of the surroundings");
    }

    [Fact]
    public void Budget_FocalLength_CountsInPlaceOfTheScale()
    {
        RigGeometry lens = Rig with { BackgroundMetresPerPixel = null, BackgroundScaleRelativeSigma = null, FocalLengthMetres = 0.05, FocalLengthSigmaMetres = 1e-4, PixelPitchMetres = 40e-6 };

        UncertaintyBudget budget = Planar(lens, Gas);

        // S = pitch (Z_B - f) / f, hence d ln S^2 / df = -2 Z_B / (f (Z_B - f)).
        Check(budget, "focal length", -2 * (budget.DensityKgM3 - GasProperties.Of(Gas).AmbientDensity) * 2.1 / (0.05 * 2.05) * 1e-4);
    }

    [Fact]
    public void Budget_FlowPressureGiven_MovesTheTemperatureAlone()
    {
        DensityRequest request = Request(Rig, Gas);
        DensityResult result = Convert(request with { Flow = request.Flow with { FlowPressurePascal = 90000, FlowPressureSigmaPascal = 300 } });

        Check(result.Budget!, "pressure in the flow", 0, result.Budget!.TemperatureKelvin / 90000 * 300);
    }

    [Fact]
    public void Budget_NothingStated_ListsEveryInputAsMissing()
    {
        RigGeometry rig = Rig with { LensToFlowSigmaMetres = null, FlowToBackgroundSigmaMetres = null, BackgroundScaleRelativeSigma = null, PathLengthSigmaMetres = null };
        DensityResult result = Convert(Request(rig, Gas with { AmbientTemperatureSigmaKelvin = null, AmbientPressureSigmaPascal = null }));

        string[] missing =
        [
            "distance from lens to flow", "distance from flow to background", "path length through the flow", "scale in the background plane", "temperature of the surroundings",
            "pressure of the surroundings",
        ];
        Assert.Equal(missing.Order(), result.Budget!.Lines.Where(line => !line.IsStated).Select(line => line.Source).Order());
        Assert.All(result.Budget.Lines.Where(line => !line.IsStated), line => Assert.Equal(0, line.DensityKgM3));
        Assert.Contains($"No uncertainty is stated for: {string.Join("; ", missing)}. The uncertainty of density and temperature does not contain them; give them in the case file (the keys that end with _sigma and a unit).", result.Warnings);
    }

    /// <summary>The twin: all inputs drawn at once, whole conversions, on a displacement without noise.</summary>
    [Fact]
    public void Sigma_AllInputsDrawn_IsTheScatterOfWholeConversions()
    {
        const int Draws = 400;
        FieldStatistics mean = KnownDisplacement.Of(new NodeGrid(28, 8, 12, 11, 2), (x, y) => (0.4 * DensityScene.Plume(x, y).U, 0), 1e-6);
        DensityResult stated = Convert(Round(mean, Rig, Gas));
        var random = new SeededRandom(1995);
        int core = 5;
        (List<double> densities, List<double> temperatures) = ([], []);
        for (int draw = 0; draw < Draws; draw++)
        {
            DensityResult drawn = Convert(Drawn(mean, random));
            densities.Add(DensityScene.Field(drawn, "density").Values[core]);
            temperatures.Add(DensityScene.Field(drawn, "temperature").Values[core]);
        }

        // The scatter of 400 draws is itself uncertain by 3.5 %.
        Assert.Equal(1, Scatter(densities) / DensityScene.Field(stated, "density").Sigma[core], 0.1);
        Assert.Equal(1, Scatter(temperatures) / DensityScene.Field(stated, "temperature").Sigma[core], 0.1);
    }

    [Fact]
    public void Sigma_SystematicErrorOfTheDisplacement_IsTheChangeItMakes()
    {
        var bias = new SubPixelBias(0.003, 0.6, 0.6);
        DensityRequest request = DensityScene.Round(KnownDisplacement.Of(DensityScene.RoundGrid, DensityScene.Plume, 0.004));
        DensityResult without = Convert(request);

        DensityResult with = Convert(request with { Bias = bias });

        BudgetLine line = with.Budget!.Lines.Single(line => line.Source.StartsWith("systematic error of the displacement", StringComparison.Ordinal));
        static (double U, double V) Raised(double x, double y) => (DensityScene.Plume(x, y).U + new SubPixelBias(0.003, 0.6, 0.6).OfU(DensityScene.Plume(x, y).U), 0);
        DensityResult raised = Convert(DensityScene.Round(KnownDisplacement.Of(DensityScene.RoundGrid, Raised, 0.004)));
        Assert.Equal(Math.Abs(raised.Budget!.DensityKgM3 - without.Budget!.DensityKgM3), line.DensityKgM3, 0.03 * line.DensityKgM3);
        Assert.True(line.DensityKgM3 > 1e-3);
        // It is one error of the whole field, not one of each vector: 0.004^2 - 0.003^2 = 0.00265^2.
        Assert.Equal(Math.Sqrt(7) / 4, with.SigmaRandom[20] / without.SigmaRandom[20], 1e-4);
    }

    [Fact]
    public void Sigma_AveragingOverTheWindow_IsTheChangeThatRestoringMakes()
    {
        // Fourth differences and their smoothing need seven rows.
        DensityRequest request = DensityScene.Round(KnownDisplacement.Of(DensityScene.RoundGrid with { Rows = 8 }, DensityScene.Plume, 0.004));

        BudgetLine none = Averaging(Convert(request));
        BudgetLine some = Averaging(Convert(request with { MissingPerFourthDifference = 0.1 }));
        BudgetLine twice = Averaging(Convert(request with { MissingPerFourthDifference = 0.2 }));

        Assert.Equal(0, none.DensityKgM3);
        Assert.True(some.DensityKgM3 > 1e-5, $"{some.DensityKgM3} kg/m3");
        Assert.Equal(2, twice.DensityKgM3 / some.DensityKgM3, 0.02);
    }

    private static BudgetLine Averaging(DensityResult result) => result.Budget!.Lines.Single(line => line.Source == "averaging over the window");

    private static DensityRequest Drawn(FieldStatistics mean, SeededRandom random)
    {
        double Normal(double value, double sigma) => value + (sigma * random.NextNormal());
        RigGeometry rig = Rig with
        {
            LensToFlowMetres = Normal(Rig.LensToFlowMetres, Rig.LensToFlowSigmaMetres!.Value),
            FlowToBackgroundMetres = Normal(Rig.FlowToBackgroundMetres, Rig.FlowToBackgroundSigmaMetres!.Value),
            BackgroundMetresPerPixel = Rig.BackgroundMetresPerPixel * Normal(1, Rig.BackgroundScaleRelativeSigma!.Value),
        };
        GasSettings gas = Gas with
        {
            GladstoneDaleM3PerKg = Gas.GladstoneDaleM3PerKg * Normal(1, Gas.GladstoneDaleRelativeSigma!.Value),
            AmbientTemperatureKelvin = Normal(Gas.AmbientTemperatureKelvin, Gas.AmbientTemperatureSigmaKelvin!.Value),
            AmbientPressurePascal = Normal(Gas.AmbientPressurePascal, Gas.AmbientPressureSigmaPascal!.Value),
        };
        return Round(mean, rig, gas);
    }

    private static DensityRequest Round(FieldStatistics mean, RigGeometry rig, GasSettings gas) => DensityScene.Round(mean) with { Rig = rig, Gas = gas };

    private static DensityRequest Request(RigGeometry rig, GasSettings gas) => DensityScene.Planar(Blob) with { Rig = rig, Gas = gas };

    private static UncertaintyBudget Planar(RigGeometry rig, GasSettings gas) => Convert(Request(rig, gas)).Budget!;

    private static DensityResult Convert(DensityRequest request) => DensityConverter.Convert(request, CancellationToken.None);

    private static double Scatter(List<double> values)
    {
        double mean = values.Average();
        return Math.Sqrt(values.Average(value => (value - mean) * (value - mean)));
    }

    private static void Check(UncertaintyBudget budget, string source, double density) => Check(budget, source, density, -budget.TemperatureKelvin / budget.DensityKgM3 * density);

    private static void Check(UncertaintyBudget budget, string source, double density, double temperature)
    {
        BudgetLine line = budget.Lines.Single(line => line.Source == source);
        Assert.True(line.IsStated);
        // One-sided differences of a few 1e-3 of the value: the second order leaves as much.
        Assert.Equal(Math.Abs(density), line.DensityKgM3, (5e-3 * Math.Abs(density)) + 1e-6);
        Assert.Equal(Math.Abs(temperature), line.TemperatureKelvin, (8e-3 * Math.Abs(temperature)) + 1e-3);
    }
}
