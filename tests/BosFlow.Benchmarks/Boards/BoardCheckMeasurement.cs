using System.Globalization;
using BosFlow.Benchmarks.Reporting;

namespace BosFlow.Benchmarks.Boards;

/// <summary>The check of printed boards on random exact photos, as a report.</summary>
internal static class BoardCheckMeasurement
{
    private const int Photos = 18;

    public static void Run(MeasurementOptions options)
    {
        string text = $"""
            # The check of a printed board

            Made by `dotnet run -c Release --project tests/BosFlow.Benchmarks -- board-check`. Each row is a random board (dots of 1 mm, coverage 25 to 40 %) seen in a random exact photo of 2400 x 1800 px:
            tilt 0 to 20 degrees in any direction, focal length 0.75 to 3 picture widths, lens centre and radial term scattered (0.5 % and 1 %), blur 0.5 to 2 px (at most a fifth of a dot), noise
            0.1 to 1 %, light weaker by up to 40 % in the corners and 30 % from side to side, ink from 4 to 15 % of the paper, 8-bit sRGB levels, ink gain -0.05 to 0.15 mm, printer off by up to 1 % in each direction. "z" is the error over its
            stated uncertainty: its RMS is 1 where the uncertainty is exact, below 1 where it is careful. These photos hold what the check models and no more: glare, folds and
            other tone curves than sRGB are not in them.

            ## Dots about 9 px wide: measured one by one

            {Table(9)}
            ## Dots about 4 px wide: from the covered area

            {Table(4)}
            {FiducialStudy.Text()}
            """;
        ReportFile.Write(options.Output, text);
    }

    private static string Table(double pixels)
    {
        BoardPhoto[] photos = [.. Enumerable.Range(0, Photos).Select(i => BoardPhoto.Draw(i, pixels))];
        double[] gains = [.. photos.Select(photo => photo.Check.InkGainMetres - photo.Truth.InkGainMetres)];
        double[] ratios = [.. photos.Select(photo => (photo.Check.Scale.Ratio * photo.Truth.Camera.PrintScaleY / photo.Truth.Camera.PrintScaleX) - 1)];
        double[] coverages = [.. photos.Select(photo => photo.Check.Coverage - (photo.Check.NominalCoverage * Math.Pow(1 + (photo.Truth.InkGainMetres / 1e-3), 2)))];
        double[] gainZ = [.. gains.Zip(photos, (error, photo) => error / photo.Check.InkGainSigma)];
        double[] ratioZ = [.. ratios.Zip(photos, (error, photo) => error / photo.Check.Scale.RatioSigma)];
        double[] coverageZ = [.. coverages.Zip(photos, (error, photo) => error / photo.Check.CoverageSigma)];
        IEnumerable<IReadOnlyList<string>> rows = photos.Select((photo, i) => (IReadOnlyList<string>)
        [
            Text($"{i}"),
            Text($"{photo.Truth.Camera.TiltRadians * 180 / Math.PI:0.0}"),
            Text($"{photo.Truth.BlurPixels:0.0}"),
            Text($"{photo.Truth.InkGainMetres * 1e3:0.000}"),
            Text($"{gains[i] * 1e3:0.000} ± {photo.Check.InkGainSigma * 1e3:0.000}"),
            Text($"{ratios[i] * 100:0.00} ± {photo.Check.Scale.RatioSigma * 100:0.00}"),
            Text($"{coverages[i] * 100:0.0} ± {photo.Check.CoverageSigma * 100:0.0}"),
            Text($"{photo.Check.Sizes[0].Found} / {photo.Check.Sizes[0].Expected}"),
        ]);
        string table = MarkdownTable.Of(["photo", "tilt, deg", "blur, px", "ink gain, mm", "error of the diameter, mm", "error of x : y, %", "error of coverage, % of the area", "dots found"], rows);
        return table + Text($"""

            RMS error: diameter {Rms(gains) * 1e3:0.0000} mm (z {Rms(gainZ):0.00}), x : y {Rms(ratios) * 100:0.000} % (z {Rms(ratioZ):0.00}), coverage {Rms(coverages) * 100:0.00} % of the area (z {Rms(coverageZ):0.00}). Within two
            uncertainties: {gainZ.Count(Within)}, {ratioZ.Count(Within)} and {coverageZ.Count(Within)} of {Photos}.

            """);
    }

    private static bool Within(double z) => Math.Abs(z) <= 2;

    private static double Rms(double[] values) => Math.Sqrt(values.Average(value => value * value));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
