using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Cli.CaseFile;

/// <summary>Turns checked values in the units of the file into the case in SI units.</summary>
internal static class CaseMapping
{
    // Divisors, because 1200 / 1000.0 is correctly rounded where 1200 * 0.001 may not be.
    private const double MillimetresPerMetre = 1e3;
    private const double MicrometresPerMetre = 1e6;
    private const double Percent = 100;

    /// <summary>The case in SI units.</summary>
    /// <param name="values">Checked values.</param>
    public static ExperimentCase ToExperiment(CaseValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return new ExperimentCase
        {
            Footage = Footage(values),
            Reference = Reference(values),
            Region = new RegionSettings
            {
                Interest = values.Optional(RegionKeys.Interest),
                Exclude = values.Or(RegionKeys.Exclude, []),
                Flow = values.Or(RegionKeys.Flow, []),
            },
            Registration = Registration(values),
            Displacement = Displacement(values),
            Rig = Rig(values),
            LensFile = values.Optional(CameraKeys.Lens),
            BoardDescription = values.Optional(BoardKeys.Description),
            Gas = GasMapping.Of(values),
            Flow = FlowMapping.Of(values),
            KnifeEdgeDegrees = values.Number(OutputKeys.KnifeEdge) ?? 0,
        };
    }

    /// <summary>The settings of the correlation engine.</summary>
    /// <param name="values">Checked values.</param>
    public static DisplacementSettings Displacement(CaseValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        DisplacementSettings preset = values.Or(DisplacementKeys.Quality, QualityPresets.Standard);
        WindowShape shape = values.Or(DisplacementKeys.Shape, preset.Shape);
        var settings = new DisplacementSettings
        {
            WindowPixels = values.Or(DisplacementKeys.Window, shape == WindowShape.Quadratic ? DisplacementSettings.QuadraticWindowPixels : preset.WindowPixels),
            Windows = values.Or(DisplacementKeys.Windows, preset.Windows),
            Shape = shape,
            SpacingPixels = values.Or(DisplacementKeys.Spacing, preset.SpacingPixels),
            CoarseWindowPixels = values.Or(DisplacementKeys.CoarseWindow, preset.CoarseWindowPixels),
            CoarseOverlap = values.Or(DisplacementKeys.CoarseOverlap, preset.CoarseOverlap),
            Passes = values.Or(DisplacementKeys.Passes, ReadsRows(values) ? Math.Max(preset.Passes, DisplacementSettings.PassesForRows) : preset.Passes),
            LastPass = values.Or(DisplacementKeys.LastPass, preset.LastPass),
            Weighting = values.Or(DisplacementKeys.Weighting, preset.Weighting),
            SubPixel = values.Or(DisplacementKeys.SubPixel, preset.SubPixel),
            Interpolation = values.Or(DisplacementKeys.Interpolation, preset.Interpolation),
            PredictorSmoothings = values.Or(DisplacementKeys.PredictorSmoothings, preset.PredictorSmoothings),
            LowestCorrelation = values.Or(DisplacementKeys.LowestCorrelation, preset.LowestCorrelation),
            OutlierThreshold = values.Or(DisplacementKeys.OutlierThreshold, preset.OutlierThreshold),
            OutlierNoisePixels = values.Or(DisplacementKeys.OutlierNoise, preset.OutlierNoisePixels),
            ReplaceOutliers = values.Or(DisplacementKeys.ReplaceOutliers, preset.ReplaceOutliers),
        };

        // What a word of quality brings along gives way to what is asked for by name.
        bool givesWay = !values.Has(DisplacementKeys.Windows) && DisplacementSettingsCheck.AdaptiveProblem(settings) is not null;
        return givesWay ? settings with { Windows = WindowSizing.Fixed } : settings;
    }

    private static bool ReadsRows(CaseValues values) => values.Or(RegistrationKeys.Readout, new ReadoutChoice(0)).Milliseconds is not 0;

    private static FootageSettings Footage(CaseValues values)
    {
        var standard = new FootageSettings();
        return new FootageSettings
        {
            Frames = values.Or(FootageKeys.Frames, []),
            Video = values.Optional(FootageKeys.Video),
            Use = values.Optional(FootageKeys.Use),
            UseSeconds = values.Has(FootageKeys.UseSeconds) ? values.Or(FootageKeys.UseSeconds, default) : null,
            FrameRateHz = values.Number(FootageKeys.FrameRateHz),
            SkipRepeats = values.Or(FootageKeys.SkipRepeats, standard.SkipRepeats),
            BlurLimit = values.Or(FootageKeys.BlurLimit, standard.BlurLimit),
            Decoder = values.Or(FootageKeys.Decoder, standard.Decoder),
        };
    }

    private static ReferenceSettings Reference(CaseValues values)
    {
        var standard = new ReferenceSettings();
        return new ReferenceSettings
        {
            Images = values.Optional(ReferenceKeys.Image) is { } image ? [image] : values.Or(ReferenceKeys.Images, []),
            Use = values.Optional(ReferenceKeys.Use),
            UseLater = values.Or(ReferenceKeys.UseLater, []),
            Drift = values.Or(ReferenceKeys.Drift, standard.Drift),
            Combine = values.Or(ReferenceKeys.Combine, standard.Combine),
        };
    }

    private static RegistrationSettings Registration(CaseValues values)
    {
        var standard = new RegistrationSettings();
        ReadoutChoice readout = values.Or(RegistrationKeys.Readout, new ReadoutChoice(0));
        return new RegistrationSettings
        {
            Motion = values.Or(RegistrationKeys.Motion, standard.Motion),
            LargestShiftPixels = values.Or(RegistrationKeys.LargestShift, standard.LargestShiftPixels),
            ReadoutSeconds = (readout.Milliseconds ?? 0) / 1e3,
            EstimatesReadout = readout.Milliseconds is null,
            HighestVibrationHertz = values.Number(RegistrationKeys.HighestVibration),
        };
    }

    /// <summary>Distances and lens; null where a distance is missing.</summary>
    /// <param name="values">Checked values.</param>
    public static RigGeometry? Rig(CaseValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Number(RigKeys.LensToFlow) is not { } lensToFlow || values.Number(RigKeys.FlowToBackground) is not { } flowToBackground)
            return null;
        return new RigGeometry
        {
            LensToFlowMetres = lensToFlow / MillimetresPerMetre,
            FlowToBackgroundMetres = flowToBackground / MillimetresPerMetre,
            BackgroundMetresPerPixel = values.Number(RigKeys.BackgroundScale) / MillimetresPerMetre,
            FocalLengthMetres = values.Number(RigKeys.FocalLength) / MillimetresPerMetre,
            PixelPitchMetres = values.Number(RigKeys.PixelPitch) / MicrometresPerMetre,
            FNumber = values.Number(RigKeys.FNumber),
            PathLengthMetres = values.Number(FlowKeys.PathLength) / MillimetresPerMetre,
            LensToFlowSigmaMetres = values.Number(RigKeys.LensToFlowSigma) / MillimetresPerMetre,
            FlowToBackgroundSigmaMetres = values.Number(RigKeys.FlowToBackgroundSigma) / MillimetresPerMetre,
            BackgroundScaleRelativeSigma = values.Number(RigKeys.BackgroundScaleSigma) / Percent,
            FocalLengthSigmaMetres = values.Number(RigKeys.FocalLengthSigma) / MillimetresPerMetre,
            PathLengthSigmaMetres = values.Number(FlowKeys.PathLengthSigma) / MillimetresPerMetre,
        };
    }
}
