using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Pipeline;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Turns the checked values of a recipe into the recipe in SI units.</summary>
internal static class SceneRecipeMapping
{
    /// <summary>The recipe in SI units.</summary>
    /// <param name="values">Checked values.</param>
    public static SceneRecipe ToRecipe(CaseValues values)
    {
        // [rig] and [gas] are those of a case file, and so is their conversion.
        ExperimentCase shared = CaseMapping.ToExperiment(values);
        var speckle = new SpeckleSettings();
        var sensor = new SensorSettings();
        int width = values.Or(SceneKeys.Width, 0);
        int height = values.Or(SceneKeys.Height, 0);
        return new SceneRecipe
        {
            Width = width,
            Height = height,
            FrameCount = values.Or(SceneKeys.Frames, 0),
            FlowOffCount = values.Or(SceneKeys.FlowOffFrames, 0),
            FlowOffAfterCount = values.Or(SceneKeys.FlowOffFramesAfter, 0),
            FrameRateHz = values.Or(SceneKeys.FrameRate, 60),
            Seed = (ulong)values.Or(SceneKeys.Seed, 1),
            Speckle = new SpeckleSettings
            {
                Shape = values.Or(SceneKeys.Shape, speckle.Shape),
                BlurPixels = values.Or(SceneKeys.Blur, speckle.BlurPixels),
                DotDiameterPixels = values.Or(SceneKeys.Diameter, speckle.DotDiameterPixels),
                DotsPerPixel = values.Or(SceneKeys.Density, speckle.DotsPerPixel),
                MinimumGapPixels = values.Or(SceneKeys.Gap, speckle.MinimumGapPixels),
                ContrastFrom = values.Or(SceneKeys.ContrastFrom, speckle.ContrastFrom),
                ContrastTo = values.Or(SceneKeys.ContrastTo, speckle.ContrastTo),
                MarginPixels = values.Or(SceneKeys.Margin, speckle.MarginPixels),
                Seed = (ulong)values.Or(SceneKeys.DotSeed, 1),
            },
            Sensor = new SensorSettings
            {
                Background = values.Or(SceneKeys.Background, sensor.Background),
                NoisePercent = values.Or(SceneKeys.Noise, sensor.NoisePercent),
                FullWellElectrons = values.Number(SceneKeys.FullWell),
                Bits = values.Or(SceneKeys.Bits, sensor.Bits),
                Gamma = values.Or(SceneKeys.Gamma, sensor.Gamma),
            },
            Shake = Shake(values),
            Drift = DistortionMapping.Drift(values),
            Lens = DistortionMapping.Lens(values, width, height),
            Vibration = VibrationMapping.Vibration(values),
            Shutter = VibrationMapping.Shutter(values),
            Light = LightMapping.Light(values),
            Stabilisation = RecorderMapping.Stabilisation(values),
            Order = RecorderMapping.Order(values),
            Rig = shared.Rig,
            Gas = shared.Gas,
            Flow = Flow(values, (width - 1) / 2.0, (height - 1) / 2.0),
        };
    }

    private static ShakeSettings? Shake(CaseValues values)
    {
        CaseKey[] keys = [SceneKeys.ShakeShift, SceneKeys.ShakeRotation, SceneKeys.ShakeScale, SceneKeys.ShakeFrequency];
        if (!keys.Any(values.Has))
            return null;
        var standard = new ShakeSettings();
        return new ShakeSettings
        {
            ShiftPixels = values.Or(SceneKeys.ShakeShift, 0),
            RotationDegrees = values.Or(SceneKeys.ShakeRotation, 0),
            ScalePercent = values.Or(SceneKeys.ShakeScale, 0),
            HighestFrequencyHz = values.Or(SceneKeys.ShakeFrequency, standard.HighestFrequencyHz),
        };
    }

    private static FlowRecipe Flow(CaseValues values, double centreX, double centreY)
    {
        double Of(TypedCaseKey<double> key) => values.Or(key, 0);
        return values.Or(SceneKeys.Kind, FlowKind.Shift) switch
        {
            FlowKind.Shift => new FlowRecipe.Shift(Of(SceneKeys.U), Of(SceneKeys.V)),
            FlowKind.Sinusoid => new FlowRecipe.Wave(new SinusoidField(Of(SceneKeys.U), Of(SceneKeys.V), Of(SceneKeys.Wavelength), Of(SceneKeys.Direction), Of(SceneKeys.Phase))),
            FlowKind.Linear => new FlowRecipe.Linear(new LinearField(
                Of(SceneKeys.U), Of(SceneKeys.V), centreX, centreY, Of(SceneKeys.DuDx), Of(SceneKeys.DuDy), Of(SceneKeys.DvDx), Of(SceneKeys.DvDy))),
            FlowKind.Jet => new FlowRecipe.Jet(
                Of(SceneKeys.NozzleX), Of(SceneKeys.NozzleY), Of(SceneKeys.Direction), Of(SceneKeys.HalfWidth) / 1e3, Of(SceneKeys.Growth), Of(SceneKeys.Temperature) + GasKeys.ZeroCelsiusKelvin),
            FlowKind.Lens => new FlowRecipe.Lens(Of(SceneKeys.LensFocalLength) / 1e3),
            FlowKind.Wedge => new FlowRecipe.Wedge(Of(SceneKeys.GlassIndex), Of(SceneKeys.Apex), Of(SceneKeys.Direction)),
            FlowKind.SlabGradient => new FlowRecipe.SlabGradient(Of(SceneKeys.DensityGradient), Of(SceneKeys.Direction), Of(SceneKeys.PathLength) / 1e3),
            FlowKind.SlabStripe => new FlowRecipe.SlabStripe(
                Of(SceneKeys.CentreX), Of(SceneKeys.CentreY), Of(SceneKeys.Direction), Of(SceneKeys.HalfWidth) / 1e3, Of(SceneKeys.Temperature) + GasKeys.ZeroCelsiusKelvin, Of(SceneKeys.PathLength) / 1e3),
            FlowKind.SlabBlob => new FlowRecipe.SlabBlob(
                Of(SceneKeys.CentreX), Of(SceneKeys.CentreY), Of(SceneKeys.HalfWidth) / 1e3, Of(SceneKeys.Temperature) + GasKeys.ZeroCelsiusKelvin, Of(SceneKeys.PathLength) / 1e3),
            _ => new FlowRecipe.Shock(
                Of(SceneKeys.Mach), Of(SceneKeys.WedgeAngle), Of(SceneKeys.Direction), Of(SceneKeys.CentreX), Of(SceneKeys.CentreY), Of(SceneKeys.ShockThickness) / 1e3, Of(SceneKeys.PathLength) / 1e3),
        };
    }
}
