using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Inspection;
using BosFlow.Media.Fiducials;
using BosFlow.Speckle;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;

namespace BosFlow.Benchmarks.Boards;

/// <summary>The fiducials of boards in random scenes with blur and a part hidden: found or not, scale, and identities that are not there.</summary>
internal static class FiducialStudy
{
    private const int Scenes = 100;
    private const int Width = 1600;
    private const int Height = 1200;
    private const double PixelsPerMetre = 5000;
    private const double LargestTiltDegrees = 15;
    private const double LargestScaleError = 0.002;
    private const double LeastFound = 0.95;
    private const double LeastCovered = 0.9;
    private const double LargestMissPixels = 10; // a third of the least width of a fiducial

    /// <summary>The section of the report.</summary>
    public static string Text()
    {
        Scene[] scenes = [.. Enumerable.Range(0, Scenes).Select(Draw)];
        Scene[] found = [.. scenes.Where(scene => double.IsFinite(scene.ByDots.Error))];
        int wrong = scenes.Sum(scene => scene.Misplaced);
        return Invariant($"""
            ## Scale and identity by fiducials

            {Scenes} random scenes of {Width} x {Height} px: a board of dots of 5 px, tilted by 0 to {LargestTiltDegrees} degrees in any direction and turned by up to 6 degrees, focal length 0.75 to 3 picture widths, blur 0.5 to 2.5 px, noise 0.5 to 2 %,
            uneven light, and 10 to 30 % of the picture behind one dark or bright thing. The scale is the one that a run reads from its reference; the truth is that of the exact camera over the same fiducials. "By fiducials alone" is
            what a run tells where the table of the dots does not lie beside the board's description.

            {Table("By fiducials and dots", found, scene => scene.ByDots)}
            {Table("By fiducials alone", found, scene => scene.ByFiducials)}
            Found (two fiducials or more that agree): {found.Length} of {Scenes}, asked for at least {LeastFound * Scenes:0}: {Verdict(found.Length >= LeastFound * Scenes)}.
            {Judgement("By fiducials and dots", found, scene => scene.ByDots)}
            {Judgement("By fiducials alone", found, scene => scene.ByFiducials)}
            Fiducials that a run would rest on and that are not where the board has them (by more than {LargestMissPixels} px), in all scenes: {wrong}, none allowed: {Verdict(wrong == 0)}. Seen and left out, since the board has none of that identity: {scenes.Sum(scene => scene.Unknown)}. Fiducials found: {scenes.Sum(scene => scene.Seen)} of {scenes.Sum(scene => scene.Printed)} printed.

            """);
    }

    private static string Table(string title, Scene[] found, Func<Scene, ScaleReading> reading)
    {
        IEnumerable<IReadOnlyList<string>> rows = Enumerable.Range(0, 3).Select(third =>
        {
            ScaleReading[] some = [.. found.Where(scene => (int)(scene.TiltDegrees / (LargestTiltDegrees / 3)) == third).Select(reading)];
            double[] sizes = [.. some.Select(one => 100 * Math.Abs(one.Error))];
            return (IReadOnlyList<string>)
            [
                Invariant($"{third * LargestTiltDegrees / 3:0} to {(third + 1) * LargestTiltDegrees / 3:0}"), Invariant($"{some.Length}"),
                Invariant($"{Math.Sqrt(sizes.Average(size => size * size)):0.0000}"), Invariant($"{sizes.Max():0.0000}"),
                Invariant($"{100 * Math.Sqrt(some.Average(one => one.Sigma * one.Sigma)):0.0000}"), Invariant($"{some.Count(IsCovered)} of {some.Length}"),
            ];
        });
        return $"""
            **{title}**

            {MarkdownTable.Of(["tilt, deg", "boards found", "RMS error of the scale, %", "largest, %", "stated uncertainty, RMS, %", "within two of them"], rows)}
            """;
    }

    private static string Judgement(string title, Scene[] found, Func<Scene, ScaleReading> reading)
    {
        int exact = found.Count(scene => Math.Abs(reading(scene).Error) <= LargestScaleError);
        int covered = found.Count(scene => IsCovered(reading(scene)));
        return Invariant($"{title}, scale within {LargestScaleError * 100:0.0} %: {exact} of the {found.Length} found, all asked for: {Verdict(exact == found.Length)}. Within two of its stated standard uncertainties: {covered}, asked for at least {LeastCovered * 100:0} %: {Verdict(covered >= LeastCovered * found.Length)}.");
    }

    private static bool IsCovered(ScaleReading reading) => Math.Abs(reading.Error) <= 2 * reading.Sigma;

    private static Scene Draw(int number)
    {
        var random = new SeededRandom(SeededRandom.PartSeed(20261126, number, 0));
        double Between(double low, double high) => low + ((high - low) * random.NextUniform());
        Board board = BoardMaker.Make(
            new BoardSettings { WidthMetres = 0.22, HeightMetres = 0.16, Sizes = [new DotSize(1e-3, 1)], Seed = (ulong)number, Coverage = Between(0.25, 0.4), FiducialSideMetres = 14e-3 },
            CancellationToken.None);
        double focal = Between(0.75, 3) * Width;
        double tilt = Between(0, LargestTiltDegrees) * Math.PI / 180;
        double towards = Between(0, 2 * Math.PI);
        double distance = focal / PixelsPerMetre;
        var camera = new PlaneCamera
        {
            FocalPixels = focal,
            CentreX = (Width - 1) / 2.0,
            CentreY = (Height - 1) / 2.0,
            Rotation = (tilt * Math.Cos(towards), tilt * Math.Sin(towards), Between(-0.1, 0.1)),
            Origin = (board.Settings.WidthMetres / 2, board.Settings.HeightMetres / 2),
            Position = (0, 0, distance),
        };
        var settings = new BoardPhotoSettings
        {
            Camera = camera,
            Width = Width,
            Height = Height,
            BlurPixels = Between(0.5, 2.5),
            Noise = Between(0.005, 0.02),
            PaperLight = Between(0.4, 0.85),
            InkShare = Between(0.04, 0.15),
            FallOff = Between(0, 0.4),
            Slant = Between(-0.3, 0.3),
            Seed = (ulong)number,
        };
        GrayImage photo = Hide(BoardPhotographer.Take(board, settings, CancellationToken.None), Between);
        IReadOnlyList<FiducialSighting> seen = FiducialFinder.Find(photo);
        IReadOnlyList<PlanePoint> corners = FiducialConsensus.Of(seen, board.Fiducials, Width, Height);
        double truth = TrueScale(camera.ToMap(), corners);
        ScaleReading dots = ScaleReading.Of(BoardScaling.Of(photo, board, corners, null, CancellationToken.None), truth);
        ScaleReading marks = ScaleReading.Of(BoardScaling.Of(photo, board with { Dots = [] }, corners, null, CancellationToken.None), truth);
        return new Scene(
            tilt * 180 / Math.PI, dots, marks, seen.Count, board.Fiducials.Count,
            corners.Chunk(4).Count(mark => mark.Any(corner => Miss(camera.ToMap(), corner) > LargestMissPixels)),
            seen.Count(sighting => board.Fiducials.All(mark => mark.Id != sighting.Id)));
    }

    private static double Miss(PlaneMap map, PlanePoint point)
    {
        (double x, double y) = map.ToPicture(point.X, point.Y);
        return double.Hypot(x - point.Column, y - point.Row);
    }

    // The exact camera's, as a fit states it: the square root of the mean scale of area over the points.
    private static double TrueScale(PlaneMap map, IReadOnlyList<PlanePoint> points) =>
        points.Count == 0 ? double.NaN : Math.Sqrt(points.Average(point => map.AreaScaleAt(point.X, point.Y)));

    // One rectangle, wide or tall, anywhere.
    private static GrayImage Hide(GrayImage photo, Func<double, double, double> between)
    {
        double area = between(0.1, 0.3);
        double across = Math.Clamp(Math.Sqrt(area) * between(0.5, 2), area, 1);
        int width = (int)(across * Width);
        int height = (int)(area / across * Height);
        int left = (int)between(0, Width - width);
        int top = (int)between(0, Height - height);
        float level = (float)(between(0, 1) < 0.5 ? between(0, 0.2) : between(0.7, 1)) * photo.WhiteLevel;
        float[] levels = photo.Pixels.ToArray();
        for (int y = top; y < top + height; y++)
            levels.AsSpan((y * Width) + left, width).Fill(level);
        return new GrayImage(Width, Height, levels, photo.WhiteLevel);
    }

    private static string Verdict(bool isMet) => isMet ? "met" : "MISSED";

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private sealed record Scene(double TiltDegrees, ScaleReading ByDots, ScaleReading ByFiducials, int Seen, int Printed, int Misplaced, int Unknown);
}
