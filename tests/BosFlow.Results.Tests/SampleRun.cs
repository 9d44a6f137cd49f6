using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.Runs;
using BosFlow.Statistics;

namespace BosFlow.Results.Tests;

/// <summary>An invented run: a plume-like field on a small grid with masked, replaced and missing places.</summary>
internal static class SampleRun
{
    public const int Width = 640;
    public const int Height = 480;

    public static readonly NodeGrid Grid = new(15.5, 15.5, 16, 39, 29);

    public static readonly OpticalScale Scale = new()
    {
        BackgroundMetresPerPixel = 0.31e-3,
        FlowMetresPerPixel = 0.186e-3,
        DeflectionPerPixel = -3.875e-4,
        IndexGradientPathPerPixel = -3.876e-4,
        DensityGradientPathPerPixel = -1.7115,
        GladstoneDaleM3PerKg = 2.265e-4,
        AmbientIndex = 1.000277,
    };

    public static ExperimentCase Case(double lensToFlowMetres = 1.2) => new()
    {
        Footage = new FootageSettings { Frames = ["frames/*.png"], UseSeconds = (0.5, 2) },
        Region = new RegionSettings { Exclude = [new PixelPolygon([(0, 0), (200, 0), (200, 90.5)])] },
        Rig = new RigGeometry { LensToFlowMetres = lensToFlowMetres, FlowToBackgroundMetres = 0.8, BackgroundMetresPerPixel = 0.31e-3 },
        KnifeEdgeDegrees = 30,
    };

    public static RunIdentity Identity(ExperimentCase? experiment = null, string hash = "00ff") => new()
    {
        Case = experiment ?? Case(),
        Scale = Scale,
        FootageDescription = "image sequence, PNG, 8 bit",
        Inputs = [new("footage", "frame-000.png", 1234, hash), new("footage", "frame-001.png", 1235, "11ee"), new("reference", "reference.png", 99, "22dd")],
    };

    public static FrameResult Frame(int index, string? failure = null)
    {
        (float[] u, float[] v, VectorFlags[] flags) = Plume(1 + (0.1 * index));
        float[] sigma = [.. u.Select(value => float.IsNaN(value) ? float.NaN : 0.01f + (MathF.Abs(value) * 0.003f))];
        return new FrameResult
        {
            Index = index,
            TimeSeconds = index / 60.0,
            Source = $"frame-{index:000}.png",
            Motion = new PlanarMotion(1.0001, -0.0002 * index, 0.31 * index, 0.0002 * index, 1.0001, -0.17, 1e-9, -2e-9),
            NoiseFloorU = 0.0081 + (0.0005 * (index % 5)),
            NoiseFloorV = failure is null ? 0.0075 + (0.0004 * (index % 3)) : double.NaN,
            SigmaFactorU = failure is null ? 1 + (0.1 * (index % 4)) : 1,
            SigmaFactorV = failure is null ? 1 + (0.2 * (index % 2)) : 1,
            ValidFraction = failure is null ? 0.97 : 0,
            MeanLevel = 118.25,
            SaturatedFraction = 0.001,
            Light = failure is null ? new LightComparison(0.9 + (0.02 * (index % 3)), 0.85, 1.1) : LightComparison.Unknown,
            Failure = failure,
            Warnings = index % 4 == 1 ? ["The board moved by 9 px, close to the limit.", "Text, with \"quotes\" & <marks>."] : [],
            Field = new VectorField
            {
                Grid = Grid,
                U = u,
                V = v,
                SigmaU = sigma,
                SigmaV = sigma,
                Flags = flags,
                Correlation = [.. u.Select(value => float.IsNaN(value) ? float.NaN : 0.93f)],
                PeakRatio = [.. u.Select(value => float.IsNaN(value) ? float.NaN : 3.5f)],
                WindowSide = index % 2 == 1 ? [.. u.Select((value, i) => float.IsNaN(value) ? float.NaN : i % 5 == 0 ? 16 : 32)] : null,
                ShapeOrder = index % 2 == 1 ? [.. u.Select((value, i) => float.IsNaN(value) ? float.NaN : i % 7 == 0 ? 0 : 2)] : null,
            },
        };
    }

    public static RunSummary Summary(bool withScale = true, int frames = 12)
    {
        FrameResult middle = Frame(0);
        VectorField f = middle.Field;
        float[] Scaled(float[] values, double factor) => [.. values.Select(value => (float)(value * factor))];
        ScalarField Derived(string name, string title, string unit, float[] values, double factor) =>
            new(name, title, unit, Grid, Scaled(values, factor), Scaled(f.SigmaU, Math.Abs(factor)));
        return new RunSummary
        {
            Case = Case(),
            Footage = new FootageInfo { Width = Width, Height = Height, TimesSeconds = [.. Enumerable.Range(0, frames).Select(i => i / 60.0)], Files = ["frame-000.png"], Description = "image sequence, PNG, 8 bit", Warnings = [] },
            Reference = new Reference(Board(), 4, "mean of 4 pictures", ["reference.png"], []),
            Statistics = new FieldStatistics
            {
                Grid = Grid, MeanU = f.U, MeanV = f.V, RmsU = f.SigmaU, RmsV = f.SigmaV, SigmaMeanU = f.SigmaU, SigmaMeanV = f.SigmaV,
                MeanCorrelation = f.Correlation, Count = [.. f.U.Select(value => float.IsNaN(value) ? 0 : frames)], PrevailingFlags = f.Flags,
            },
            Sampling = new SamplingFacts { DotPixels = 3.1, BiasTakenOffU = 0.0029, BiasTakenOffV = 0.0031, BiasLeft = 0.0006 },
            Scale = withScale ? Scale : null,
            DerivedFields = !withScale ? [] :
            [
                Derived("deflection_x", "deflection angle to the right", "rad", f.U, Scale.DeflectionPerPixel),
                Derived("deflection_y", "deflection angle downwards", "rad", f.V, Scale.DeflectionPerPixel),
                Derived("density_gradient_path_x", "path integral of the density gradient to the right", "kg m-3", f.U, Scale.DensityGradientPathPerPixel),
                Derived("density_gradient_path_y", "path integral of the density gradient downwards", "kg m-3", f.V, Scale.DensityGradientPathPerPixel),
            ],
            Frames = [.. Enumerable.Range(0, frames).Select(i => FrameRecord.Of(Frame(i, i == 5 ? "The frame is black: its mean level is 0.4 of 255 <b>." : null)))],
            Warnings = ["No flow region is given, so the whole picture served for the registration.", "<script>alert('x')</script> & co."],
        };
    }

    // A warm column that leans: u and v are the slopes of a Gaussian in x that widens upwards.
    private static (float[] U, float[] V, VectorFlags[] Flags) Plume(double strength)
    {
        float[] u = new float[Grid.Count];
        float[] v = new float[Grid.Count];
        var flags = new VectorFlags[Grid.Count];
        for (int row = 0; row < Grid.Rows; row++)
        {
            for (int column = 0; column < Grid.Columns; column++)
            {
                int i = (row * Grid.Columns) + column;
                double height = 480 - Grid.Y(row);
                double width = 25 + (height * 0.12);
                double r = (Grid.X(column) - 330 - (height * 0.05)) / width;
                u[i] = (float)(strength * 2.4 * r * Math.Exp(0.5 - (r * r / 2)) * Math.Min(1, height / 90));
                v[i] = (float)(strength * -0.35 * (1 - (r * r)) * Math.Exp(-r * r / 2));
                if (row < 6 && column < 11)
                    (u[i], v[i], flags[i]) = (float.NaN, float.NaN, VectorFlags.Masked);
                else if ((row * 7) + (column * 3) == 140)
                    flags[i] = VectorFlags.OutlierReplaced;
                else if (row == 25 && column > 30 && column < 34)
                    (u[i], v[i], flags[i]) = (float.NaN, float.NaN, VectorFlags.LowTexture);
            }
        }

        return (u, v, flags);
    }

    private static GrayImage Board()
    {
        float[] pixels = new float[Width * Height];
        Array.Fill(pixels, 205);
        var random = new Random(7);
        for (int dot = 0; dot < 9000; dot++)
        {
            int x = random.Next(1, Width - 2);
            int y = random.Next(1, Height - 2);
            for (int dy = 0; dy < 2; dy++)
            {
                for (int dx = 0; dx < 2; dx++)
                    pixels[((y + dy) * Width) + x + dx] = 45;
            }
        }

        return new GrayImage(Width, Height, pixels, 255);
    }
}
