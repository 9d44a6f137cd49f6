using System.Globalization;
using System.Text;
using BosFlow.Camera;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.CommandLine;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Lenses;

/// <summary>Writes a calibration as a lens file: every number with its unit and uncertainty, and where it came from.</summary>
internal static class LensFileWriter
{
    /// <summary>The text of a lens file.</summary>
    /// <param name="calibration">The calibration.</param>
    /// <param name="target">What was filmed.</param>
    /// <param name="inputs">The files with their hashes.</param>
    /// <param name="time">When it was made.</param>
    public static string Text(LensCalibration calibration, string target, IReadOnlyList<RunInput> inputs, DateTimeOffset time)
    {
        LensParameters lens = calibration.Lens;
        var text = new StringBuilder("# A lens, found by bosflow calibrate. Name it in a case: [camera] lens = \"lens.toml\"\n\n[lens]\n");
        Lens(text, lens);
        text.Append("\n# Standard uncertainty of each number, by how far the points miss.\n[uncertainty]\n");
        Numbers(text, calibration.StandardUncertainty);
        text.Append("\n[calibration]\n");
        text.Append(CultureInfo.InvariantCulture, $"date = \"{time.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss'Z'}\"\nprogram = {TomlLiteral.Of(VersionLine.Text)}\ntarget = {TomlLiteral.Of(target)}\n");
        text.Append(CultureInfo.InvariantCulture, $"pictures_used = {calibration.Views.Count}\npictures_rejected = {calibration.Rejected.Count}\n");
        text.Append(CultureInfo.InvariantCulture, $"reprojection_rms_px = {calibration.Rms:0.0000}\nreprojection_largest_px = {calibration.Largest:0.0000}\ncoverage_percent = {100 * calibration.Coverage:0.0}\n");
        text.Append("inputs = [\n");
        foreach (RunInput input in inputs)
            text.Append(CultureInfo.InvariantCulture, $"  {TomlLiteral.Of($"{input.Sha256} {input.Name}")},\n");
        return text.Append("]\n").ToString();
    }

    /// <summary>The text of a lens file of a lens that is known exactly.</summary>
    /// <param name="lens">The lens.</param>
    public static string Text(LensParameters lens)
    {
        var text = new StringBuilder("# The lens of a synthetic scene, known exactly.\n\n[lens]\n");
        Lens(text, lens);
        return text.ToString();
    }

    private static void Lens(StringBuilder text, LensParameters lens)
    {
        text.Append(CultureInfo.InvariantCulture, $"model = \"{(lens.Kind == LensKind.Fisheye ? "fisheye" : "pinhole")}\"\n");
        text.Append(CultureInfo.InvariantCulture, $"picture_width_px = {lens.Width}\npicture_height_px = {lens.Height}\n");
        Numbers(text, lens);
    }

    private static void Numbers(StringBuilder text, LensParameters lens)
    {
        void Line(string name, double value) => text.Append(CultureInfo.InvariantCulture, $"{name} = {TomlLiteral.Of(value)}\n");
        Line("focal_length_x_px", lens.FocalX);
        Line("focal_length_y_px", lens.FocalY);
        Line("centre_x_px", lens.CentreX);
        Line("centre_y_px", lens.CentreY);
        Line("radial_1", lens.Radial1);
        Line("radial_2", lens.Radial2);
        Line("radial_3", lens.Radial3);
        if (lens.Kind == LensKind.Fisheye)
        {
            Line("radial_4", lens.Radial4);
            return;
        }

        Line("tangential_1", lens.Tangential1);
        Line("tangential_2", lens.Tangential2);
    }
}
