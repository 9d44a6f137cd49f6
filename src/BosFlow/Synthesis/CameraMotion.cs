using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Every motion of a scene's camera at once: a slow shake and a vibration. Safe to use from several threads.</summary>
internal sealed class CameraMotion
{
    private const long ShakeStream = -1;
    private const long VibrationStream = -2;
    private readonly CameraShake? shake;
    private readonly Vibration? vibration;
    private readonly int stillFrames;

    public CameraMotion(SceneRecipe recipe)
    {
        CentreX = (recipe.Width - 1) / 2.0;
        CentreY = (recipe.Height - 1) / 2.0;
        shake = recipe.Shake is null ? null : new CameraShake(recipe.Shake, recipe.Width, recipe.Height, SeededRandom.PartSeed(recipe.Seed, ShakeStream, 0));
        vibration = recipe.Vibration is null ? null : new Vibration(recipe.Vibration, SeededRandom.PartSeed(recipe.Seed, VibrationStream, 0));
        stillFrames = recipe.Vibration?.StillFrames ?? 0;
    }

    /// <summary>Column of the picture's centre, px.</summary>
    public double CentreX { get; }

    /// <summary>Row of the picture's centre, px.</summary>
    public double CentreY { get; }

    /// <summary>How the view lies at a time that belongs to a frame.</summary>
    public CameraPose At(int frame, double seconds)
    {
        CameraPose pose = shake?.PoseAt(seconds) ?? CameraPose.Rest;
        return vibration is null || frame < stillFrames ? pose : pose.With(vibration.At(seconds));
    }
}
