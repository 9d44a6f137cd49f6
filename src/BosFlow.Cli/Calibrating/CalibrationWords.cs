using System.Text.Json.Nodes;
using BosFlow.Camera;

namespace BosFlow.Cli.Calibrating;

/// <summary>A calibration in words, and for machines.</summary>
internal static class CalibrationWords
{
    /// <summary>Lines of the result.</summary>
    public static IEnumerable<string> Lines(LensCalibration calibration, IReadOnlyList<(string Source, string Reason)> rejected, double? pitch)
    {
        LensParameters lens = calibration.Lens;
        LensParameters sigma = calibration.StandardUncertainty;
        yield return FormattableString.Invariant($"Pictures:      {calibration.Views.Count} used, {rejected.Count} left out, {lens.Width} x {lens.Height} px");
        foreach ((string source, string reason) in rejected)
            yield return $"  left out:    {source}: {reason}";
        yield return FormattableString.Invariant($"Reprojection:  {calibration.Rms:0.000} px RMS, {calibration.Largest:0.000} px at most");
        yield return FormattableString.Invariant($"Coverage:      {100 * calibration.Coverage:0} % of the picture; target turned by {double.RadiansToDegrees(calibration.LargestTurn):0} degrees between pictures");
        yield return FormattableString.Invariant($"Focal length:  {lens.FocalX:0.00} +- {sigma.FocalX:0.00} px across, {lens.FocalY:0.00} +- {sigma.FocalY:0.00} px down{(pitch is { } p ? FormattableString.Invariant($" ({lens.FocalX * p * 1e3:0.000} +- {sigma.FocalX * p * 1e3:0.000} mm)") : string.Empty)}");
        yield return FormattableString.Invariant($"Optical axis:  ({lens.CentreX:0.00} +- {sigma.CentreX:0.00}, {lens.CentreY:0.00} +- {sigma.CentreY:0.00}) px");
        foreach ((string name, double value, double error) in Terms(lens, sigma))
            yield return FormattableString.Invariant($"{name + ":",-14} {value:0.00000} +- {error:0.00000}");
        LensDistortion corner = LensDistortion.AtCorner(new LensModel(lens));
        yield return double.IsFinite(corner.Pixels)
            ? FormattableString.Invariant($"Distortion:    {100 * corner.Share:+0.00;-0.00} %, {corner.Pixels:0.0} px at the farthest corner")
            : "Distortion:    the model means nothing at a corner of the picture; vectors there will be out of frame";
    }

    /// <summary>The result for machines.</summary>
    public static JsonObject Document(LensCalibration calibration, IReadOnlyList<(string Source, string Reason)> rejected, CalibrationVerdict verdict, CalibrationRequest request)
    {
        LensDistortion corner = LensDistortion.AtCorner(new LensModel(calibration.Lens));
        return new JsonObject
        {
            ["accepted"] = verdict.Refusals.Count == 0,
            ["lens_file"] = verdict.Refusals.Count == 0 ? request.Output : null,
            ["coverage_picture"] = request.Coverage,
            ["target"] = request.Target.Description,
            ["model"] = calibration.Lens.Kind == LensKind.Fisheye ? "fisheye" : "pinhole",
            ["picture_width_px"] = calibration.Lens.Width,
            ["picture_height_px"] = calibration.Lens.Height,
            ["lens"] = Numbers(calibration.Lens),
            ["standard_uncertainty"] = Numbers(calibration.StandardUncertainty),
            ["focal_length_mm"] = calibration.Lens.FocalX * request.PixelPitchMetres * 1e3,
            ["reprojection_rms_px"] = calibration.Rms,
            ["reprojection_largest_px"] = calibration.Largest,
            ["coverage"] = calibration.Coverage,
            ["corner_distortion_percent"] = Finite(100 * corner.Share),
            ["corner_distortion_px"] = Finite(corner.Pixels),
            ["pictures_used"] = new JsonArray([.. calibration.Views.Select(view => (JsonNode)new JsonObject { ["source"] = view.View.Source, ["rms_px"] = view.Rms })]),
            ["pictures_left_out"] = new JsonArray([.. rejected.Select(left => (JsonNode)new JsonObject { ["source"] = left.Source, ["reason"] = left.Reason })]),
            ["refusals"] = new JsonArray([.. verdict.Refusals.Select(sentence => (JsonNode)sentence)]),
            ["warnings"] = new JsonArray([.. verdict.Warnings.Select(sentence => (JsonNode)sentence)]),
        };
    }

    private static IEnumerable<(string Name, double Value, double Sigma)> Terms(LensParameters lens, LensParameters sigma)
    {
        yield return ("radial 1", lens.Radial1, sigma.Radial1);
        yield return ("radial 2", lens.Radial2, sigma.Radial2);
        yield return ("radial 3", lens.Radial3, sigma.Radial3);
        if (lens.Kind == LensKind.Fisheye)
        {
            yield return ("radial 4", lens.Radial4, sigma.Radial4);
            yield break;
        }

        yield return ("tangential 1", lens.Tangential1, sigma.Tangential1);
        yield return ("tangential 2", lens.Tangential2, sigma.Tangential2);
    }

    private static JsonObject Numbers(LensParameters lens)
    {
        var numbers = new JsonObject
        {
            ["focal_length_x_px"] = lens.FocalX,
            ["focal_length_y_px"] = lens.FocalY,
            ["centre_x_px"] = lens.CentreX,
            ["centre_y_px"] = lens.CentreY,
        };
        foreach ((string name, double value, _) in Terms(lens, lens))
            numbers[name.Replace(' ', '_')] = value;
        return numbers;
    }

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
