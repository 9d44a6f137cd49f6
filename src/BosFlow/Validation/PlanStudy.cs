using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Planning;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>A plan against pictures: the planned board is made, seen through the planned plume with the planned blur and noise, and measured.</summary>
public static class PlanStudy
{
    private const int Width = 640;
    private const int Height = 160;
    private const int Margin = 16;
    private const double Farthest = 0.15;

    // Beyond 2.8 radii the deflection of the plume is below a thousandth of its peak: there all that is measured is error.
    private const double QuietRadii = 2.8;

    /// <summary>The rig of the laboratory with a thin plume.</summary>
    public static PlanRequest Laboratory { get; } = Request(ReferenceRigs.Laboratory, new ExpectedFlow.Plume(5e-3, 600, null));

    /// <summary>The rig on board with the plume of a small engine.</summary>
    public static PlanRequest Onboard { get; } = Request(ReferenceRigs.Onboard, new ExpectedFlow.Plume(20e-3, 900, null));

    /// <summary>Carries the study out.</summary>
    /// <param name="place">Where, in one word: "laboratory".</param>
    /// <param name="request">The rig; its flow is a plume, its picture a few hundred px wide.</param>
    /// <param name="frames">Number of frames with flow, each shifted by another fraction of a pixel.</param>
    /// <param name="cancellationToken">Stops between two pictures.</param>
    public static StudyResult Run(string place, PlanRequest request, int frames, CancellationToken cancellationToken)
    {
        ArgumentException.ThrowIfNullOrEmpty(place);
        ArgumentNullException.ThrowIfNull(request);
        PlanResult plan = Planner.Judge(request, cancellationToken);
        var plume = (ExpectedFlow.Plume)request.Flow!;
        (double peak, double noise, double stated) = Measure(plan, plume, frames, cancellationToken);
        FlowPrediction flow = plan.Flow!;
        string study = $"plan against synthesis, {place}";
        Figure Ratio(string name, double ratio) => new(study, name + ", measured over planned", ratio, "1", 1 - Farthest, 1 + Farthest);
        Figure[] figures =
        [
            Ratio("largest displacement", peak / flow.MeasuredPixels),
            Ratio("noise", noise / plan.NoisePixels),
            Ratio("ratio of signal to noise", peak / noise / flow.SignalToNoise),
            new(study, "noise that the engine states, over planned", stated / plan.NoisePixels, "1", null, null),
        ];
        var table = new StudyTable(
            $"plan-{place}", $"Plan against synthesis, {place}", ["planned displacement (px)", "measured (px)", "planned noise (px)", "measured (px)", "stated (px)", "planned response (1)"],
            [[flow.MeasuredPixels, peak, plan.NoisePixels, noise, stated, flow.Response]]);
        string description = FormattableString.Invariant(
            $"A plume of {plume.TemperatureKelvin:F0} K and {plume.HalfWidthMetres * 1e3:F0} mm before a board of dots of {plan.DotMetres * 1e3:F3} mm, whose images have {plan.DotImagePixels:F2} px; noise {100 * request.Camera.NoiseOfFullScale:F1} %, the aperture blurs the flow over {plan.FlowBlurMetres * 1e3:F2} mm; {frames} frames of {Width} x {Height} px, each shifted by another fraction of a pixel.");
        return new StudyResult($"Plan against synthesis, {place}", description, figures, [table]);
    }

    private static (double Peak, double Noise, double Stated) Measure(PlanResult plan, ExpectedFlow.Plume plume, int frames, CancellationToken cancellationToken)
    {
        PlanRequest request = plan.Request;
        double scale = plan.Scale.BackgroundMetresPerPixel;
        var speckle = new SpeckleSettings
        {
            Shape = DotShape.Disc,
            DotDiameterPixels = plan.DotMetres / scale,
            BlurPixels = DotImage.Diameter(0, plan.DiffractionSpotMetres, plan.BoardConfusionMetres) / request.Rig.PixelPitchMetres!.Value,
        };
        var sensor = new SensorSettings { Background = 0.8, NoisePercent = 100 * request.Camera.NoiseOfFullScale };
        IReadOnlyList<Dot> pattern = InView(PrintedPattern.Seen(BoardMaker.Make(Board(plan, scale), cancellationToken), scale, Width, Height, request.Board.Contrast));
        Dot[] still = [.. pattern];
        Dot[] moved = ApertureView.Displace(pattern, Field(plan, plume), plan.FlowBlurMetres / plan.Scale.FlowMetresPerPixel, cancellationToken);
        GrayImage Picture(Dot[] dots, PlanarMotion motion, int frame) => SceneRenderer.Render(dots, motion, Width, Height, speckle, sensor, 11, frame, cancellationToken);

        var engine = new DisplacementEngine(Mean(request.ReferenceFrames, frame => Picture(still, PlanarMotion.Identity, 1000 + frame)), PixelMask.All(Width, Height), request.Displacement, frames: request.ReferenceFrames);
        var column = new double[engine.Grid.Columns];
        double squares = 0, stated = 0;
        int quiet = 0;
        double quietFrom = QuietRadii * plume.HalfWidthMetres / plan.Scale.FlowMetresPerPixel;
        for (int frame = 0; frame < frames; frame++)
        {
            double shift = (frame + 0.5) / frames;
            VectorField field = engine.Measure(Picture(moved, PlanarMotion.Shift(shift, -shift), frame), PlanarMotion.Identity, cancellationToken);
            for (int node = 0; node < field.U.Length; node++)
            {
                int c = node % engine.Grid.Columns;
                double error = field.U[node] - shift;
                column[c] += error / frames / engine.Grid.Rows;
                if (Math.Abs(engine.Grid.X(c) - ((Width - 1) / 2.0)) < quietFrom)
                    continue;
                squares += (error * error) + ((field.V[node] + shift) * (field.V[node] + shift));
                stated += (field.SigmaU[node] * field.SigmaU[node]) + (field.SigmaV[node] * field.SigmaV[node]);
                quiet += 2;
            }
        }

        return (Peak(column), Math.Sqrt(squares / quiet), Math.Sqrt(stated / quiet));
    }

    /// <summary>The dots that are in the picture or may come into it.</summary>
    private static IReadOnlyList<Dot> InView(IReadOnlyList<Dot> dots) =>
        [.. dots.Where(dot => dot.X > -Margin && dot.X < Width + Margin && dot.Y > -Margin && dot.Y < Height + Margin)];

    private static BoardSettings Board(PlanResult plan, double scale)
    {
        // Margins for what flow and shift bring into view, and for the strips around a board's pattern.
        double Side(int pixels) => ((pixels + (2 * Margin)) * scale) + (40 * plan.DotMetres) + 0.1;
        return new BoardSettings
        {
            WidthMetres = Side(Width),
            HeightMetres = Side(Height),
            Sizes = [new DotSize(plan.DotMetres, 1)],
            Coverage = plan.Request.Board.Coverage,
            Seed = 4,
            WithFiducials = false,
        };
    }

    private static ThinJetField Field(PlanResult plan, ExpectedFlow.Plume plume)
    {
        ViewGeometry view = ViewGeometry.Of(plan.Request.Rig, plan.Scale, Width, Height);
        double excess = SceneGas.Of(plan.Request.Gas).IndexExcess(plume.TemperatureKelvin);
        return new ThinJetField(view, new HotJet(0, 0, view.LensToFlowMetres, 90, plume.HalfWidthMetres, 0, excess));
    }

    private static GrayImage Mean(int count, Func<int, GrayImage> picture)
    {
        float[] mean = new float[Width * Height];
        for (int i = 0; i < count; i++)
        {
            ReadOnlySpan<float> pixels = picture(i).Pixels;
            for (int k = 0; k < mean.Length; k++)
                mean[k] += pixels[k] / count;
        }

        return new GrayImage(Width, Height, mean, 255);
    }

    /// <summary>Half the difference of the two crests, each the top of the parabola through three nodes.</summary>
    private static double Peak(double[] profile) => (Top(profile) + Top([.. profile.Select(value => -value)])) / 2;

    private static double Top(double[] profile)
    {
        int i = Math.Clamp(Array.IndexOf(profile, profile.Max()), 1, profile.Length - 2);
        double slope = (profile[i + 1] - profile[i - 1]) / 2;
        double curvature = profile[i + 1] - (2 * profile[i]) + profile[i - 1];
        return profile[i] - (slope * slope / (2 * curvature));
    }

    private static PlanRequest Request(RigGeometry rig, ExpectedFlow flow) => new()
    {
        Rig = rig,
        Camera = new CameraFacts { PictureWidth = Width, PictureHeight = Height },
        Flow = flow,
        ReferenceFrames = 12,
    };
}
