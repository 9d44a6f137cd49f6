using System.Text.Json.Nodes;
using BosFlow.Camera;
using BosFlow.Optics;
using BosFlow.Planning;

namespace BosFlow.Results.Plans;

/// <summary>A plan for machines: SI units, named at the end of each key; null for what cannot be told.</summary>
public static class PlanJson
{
    /// <summary>The content of the document.</summary>
    /// <param name="plan">The plan.</param>
    public static JsonObject Of(PlanResult plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new JsonObject
        {
            ["rig"] = Rig(plan.Request),
            ["view_at_board_m"] = Pair(plan.ViewAtBoard),
            ["view_at_flow_m"] = Pair(plan.ViewAtFlow),
            ["board_scale_m_per_px"] = Number(plan.Scale.BackgroundMetresPerPixel),
            ["flow_scale_m_per_px"] = Number(plan.Scale.FlowMetresPerPixel),
            ["magnification"] = Number(plan.Magnification),
            ["px_per_rad"] = Number(plan.PixelsPerRadian),
            ["noise_px"] = Number(plan.NoisePixels),
            ["noise_bound_px"] = Number(plan.NoiseBoundPixels),
            ["mean_noise_px"] = Number(plan.MeanNoisePixels),
            ["smallest_gradient_kg_m3"] = Number(plan.SmallestGradient),
            ["smallest_mean_gradient_kg_m3"] = Number(plan.SmallestMeanGradient),
            ["smallest_plume_k"] = Number(plan.SmallestPlumeKelvin),
            ["smallest_mean_plume_k"] = Number(plan.SmallestMeanPlumeKelvin),
            ["flow"] = plan.Flow is { } flow ? Flow(flow) : null,
            ["focus_m"] = Number(plan.FocusMetres),
            ["depth_of_field_near_m"] = Number(plan.DepthOfField.Near),
            ["depth_of_field_far_m"] = Number(plan.DepthOfField.Far),
            ["depth_of_field_is_infinite"] = double.IsInfinity(plan.DepthOfField.Far),
            ["flow_blur_m"] = Number(plan.FlowBlurMetres),
            ["flow_confusion_m"] = Number(plan.FlowConfusionMetres),
            ["board_confusion_m"] = Number(plan.BoardConfusionMetres),
            ["diffraction_spot_m"] = Number(plan.DiffractionSpotMetres),
            ["half_response_wavelength_m"] = Number(plan.HalfResponseWavelengthMetres),
            ["nine_tenths_response_wavelength_m"] = Number(plan.NineTenthsResponseWavelengthMetres),
            ["dot_m"] = Number(plan.DotMetres),
            ["dot_2_px_m"] = Number(plan.DotRangeMetres.Small),
            ["dot_3_px_m"] = Number(plan.DotRangeMetres.Large),
            ["dot_image_px"] = Number(plan.DotImagePixels),
            ["dots_per_window"] = Number(plan.DotsPerWindow),
            ["vibration_px"] = Number(plan.VibrationPixels),
            ["vibration_smear_px"] = Number(plan.VibrationSmearPixels),
            ["vibration_attenuation"] = Number(plan.VibrationAttenuation),
            ["row_skew_px"] = Number(plan.RowSkewPixels),
            ["periods_per_readout"] = Number(plan.PeriodsPerReadout),
            ["recommended"] = Recommended(plan),
            ["warnings"] = new JsonArray([.. plan.Warnings.Select(warning => (JsonNode)new JsonObject { ["sentence"] = warning.Sentence, ["remedy"] = warning.Remedy })]),
            ["print_command"] = BoardCommand.Of(plan),
            ["cautions"] = new JsonArray([.. PlanCautions.Sentences.Select(sentence => JsonValue.Create(sentence))]),
        };
    }

    /// <summary>A number; null for what is not known or has no end, which JSON cannot say.</summary>
    internal static JsonNode? Number(double? value) => value is double known && double.IsFinite(known) ? JsonValue.Create(known) : null;

    private static JsonArray Pair((double Width, double Height) size) => new(Number(size.Width), Number(size.Height));

    private static JsonObject Rig(PlanRequest request)
    {
        RigGeometry rig = request.Rig;
        CameraFacts camera = request.Camera;
        return new JsonObject
        {
            ["lens_to_flow_m"] = Number(rig.LensToFlowMetres),
            ["flow_to_background_m"] = Number(rig.FlowToBackgroundMetres),
            ["focal_length_m"] = Number(rig.FocalLengthMetres),
            ["pixel_pitch_m"] = Number(rig.PixelPitchMetres),
            ["f_number"] = Number(rig.FNumber),
            ["picture_px"] = new JsonArray(camera.PictureWidth, camera.PictureHeight),
            ["exposure_s"] = Number(camera.ExposureSeconds),
            ["readout_s"] = Number(camera.ReadoutSeconds),
            ["noise_of_full_scale"] = Number(camera.NoiseOfFullScale),
            ["vibration_rad"] = Number(camera.VibrationRadians),
            ["vibration_hz"] = Number(camera.VibrationHertz),
            ["window_px"] = request.Displacement.WindowPixels,
            ["reference_frames"] = request.ReferenceFrames,
            ["flow_frames"] = request.FlowFrames,
            ["board_width_m"] = Number(request.Board.WidthMetres),
            ["board_height_m"] = Number(request.Board.HeightMetres),
            ["coverage"] = Number(request.Board.Coverage),
            ["contrast"] = Number(request.Board.Contrast),
        };
    }

    private static JsonObject Flow(FlowPrediction flow) => new()
    {
        ["description"] = flow.Description,
        ["source"] = flow.Source,
        ["deflection_rad"] = Number(flow.DeflectionRadians),
        ["density_kg_m3"] = Number(flow.Density),
        ["temperature_k"] = Number(flow.Temperature),
        ["size_m"] = Number(flow.SizeMetres),
        ["displacement_px"] = Number(flow.DisplacementPixels),
        ["response"] = Number(flow.Response),
        ["measured_px"] = Number(flow.MeasuredPixels),
        ["strain"] = Number(flow.StrainPerPixel),
        ["ratio"] = Number(flow.SignalToNoise),
        ["mean_ratio"] = Number(flow.MeanSignalToNoise),
        ["verdict"] = Word(flow.OneFrame),
        ["mean_verdict"] = Word(flow.Mean),
        ["smear_px"] = Number(flow.SmearPixels),
    };

    private static string Word(Detectability verdict) => verdict switch
    {
        Detectability.Good => "good",
        Detectability.Marginal => "marginal",
        _ => "hopeless",
    };

    private static JsonObject Recommended(PlanResult plan) => new()
    {
        ["f_number"] = Number(plan.RecommendedFNumber),
        ["exposure_s"] = Number(plan.RecommendedExposureSeconds),
        ["exposure_to_freeze_eddies_s"] = Number(plan.FreezingExposureSeconds),
        ["focus_m"] = Number(plan.RecommendedFocusMetres),
        ["light_change_stops"] = Number(plan.LightChangeStops),
        ["dot_m"] = Number(plan.RecommendedDotMetres),
    };
}
