using BosFlow.Footage;

namespace BosFlow.Synthesis;

/// <summary>The frames of a scene as footage, rendered when they are asked for.</summary>
/// <param name="scene">The scene.</param>
public sealed class SceneFootage(SyntheticScene scene) : IFootage
{
    /// <inheritdoc/>
    public FootageInfo Info { get; } = new()
    {
        Width = scene.Recipe.Width,
        Height = scene.Recipe.Height,
        TimesSeconds = [.. Enumerable.Range(0, scene.Recipe.FrameCount).Select(scene.TimeSeconds)],
        Files = [],
        Description = FormattableString.Invariant($"synthetic scene, {scene.Recipe.FrameCount} frames of {scene.Recipe.Width} x {scene.Recipe.Height} px"),
    };

    /// <inheritdoc/>
    public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(indices);
        foreach (int index in indices)
        {
            cancellationToken.ThrowIfCancellationRequested();
            yield return new Frame(index, scene.TimeSeconds(index), FormattableString.Invariant($"synthetic frame {index}"), scene.Render(index, cancellationToken), null);
        }
    }
}
