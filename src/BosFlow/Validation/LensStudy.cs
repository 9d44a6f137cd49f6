using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>What the correction of a lens leaves: displacements through lenses of 5 % and more at the corner, against exact truth in the ideal picture.</summary>
public static class LensStudy
{
    private const double LargestRms = 0.01;
    private const int Width = 640;
    private const int Height = 480;
    private const ulong Seed = 77;

    // Terms that move the corner by 5 % inward and outward, and a fisheye.
    private static readonly (string Name, LensParameters Lens)[] Lenses =
    [
        ("barrel, 5 %", LensParameters.Undistorted(Width, Height, 600) with { Radial1 = -0.102 }),
        ("pincushion, 5 %", LensParameters.Undistorted(Width, Height, 600) with { Radial1 = 0.124, Tangential1 = 0.0005, Tangential2 = -0.0004 }),
        ("fisheye", LensParameters.Undistorted(Width, Height, 600) with { Kind = LensKind.Fisheye, CentreX = 322, CentreY = 237.5, Radial1 = -0.01 }),
    ];

    /// <summary>Carries the study out.</summary>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var figures = new List<Figure>();
        var rows = new List<IReadOnlyList<double>>();
        foreach ((string name, LensParameters lens) in Lenses)
        {
            var model = new LensModel(lens);
            GrayImage[] pictures = [LensScene.Render(model, (_, _) => (0, 0), Seed, cancellationToken), LensScene.Render(model, Truth, Seed, cancellationToken)];
            double with = Rms(Measure(pictures, lens, settings, cancellationToken), out int vectors);
            double without = Rms(Measure(pictures, null, settings, cancellationToken), out _);
            LensDistortion corner = LensDistortion.AtCorner(model);
            figures.Add(new Figure("lens", $"RMS error of the displacement after correction, {name}", with, "px", null, LargestRms));
            figures.Add(new Figure("lens", $"the same without correction, {name}", without, "px", null, null));
            rows.Add([100 * corner.Share, corner.Pixels, with, without, vectors]);
        }

        return new StudyResult(
            "Lens",
            FormattableString.Invariant($"Random dots at {Width} x {Height} px, 8 bit, seen through a known lens; the pattern is shifted by (3.3, -2.1) px, turned by 0.1 degrees, stretched by 0.1 % and waved by 0.3 px over 640 px, all in the ideal picture. Errors are those of both components together, vectors and places in ideal coordinates, no motion taken out."),
            figures,
            [new StudyTable("lens", "Errors through a lens", ["distortion at the corner (%)", "distortion at the corner (px)", "RMS error corrected (px)", "RMS error uncorrected (px)", "vectors"], rows)]);
    }

    /// <summary>The displacement of the study at a place of the ideal picture, px.</summary>
    /// <param name="x">Column, px.</param>
    /// <param name="y">Row, px.</param>
    public static (double U, double V) Truth(double x, double y)
    {
        (double fromX, double fromY) = (x - ((Width - 1) / 2.0), y - ((Height - 1) / 2.0));
        const double Turn = Math.PI / 1800;
        const double Stretch = 1e-3;
        double wave = 0.3 * Math.Sin(2 * Math.PI * x / 640);
        return (3.3 + (Stretch * fromX) + (Turn * fromY) + wave, -2.1 - (Turn * fromX) + (Stretch * fromY) - wave);
    }

    private static VectorField Measure(GrayImage[] pictures, LensParameters? lens, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        var footage = new PictureFootage(pictures, 1);
        var store = new MemoryRunStore();
        var request = new RunRequest
        {
            Case = new ExperimentCase
            {
                Footage = new FootageSettings(),
                Registration = new RegistrationSettings { Motion = MotionModel.None },
                Displacement = settings,
                Lens = lens,
            },
            Footage = footage,
            FrameIndices = [1],
            Reference = new ReferenceSource(footage.Read([0], cancellationToken), "the dots at rest", [], false),
            Store = store,
        };
        RunPipeline.Run(request, RunStages.Standard, null, cancellationToken);
        return store.ReadFrame(1).Field;
    }

    private static double Rms(VectorField field, out int vectors)
    {
        double squares = 0;
        vectors = 0;
        for (int node = 0; node < field.Grid.Count; node++)
        {
            if (field.Flags[node] != VectorFlags.None)
                continue;
            (double u, double v) = Truth(field.Grid.X(node % field.Grid.Columns), field.Grid.Y(node / field.Grid.Columns));
            squares += Math.Pow(field.U[node] - u, 2) + Math.Pow(field.V[node] - v, 2);
            vectors++;
        }

        return vectors == 0 ? double.NaN : Math.Sqrt(squares / (2 * vectors));
    }
}
