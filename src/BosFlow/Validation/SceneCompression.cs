using BosFlow.Footage;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>A recorder that compresses the frames of a scene.</summary>
/// <param name="Codec">Name of its codec.</param>
/// <param name="MegabitsPerSecond">Mean rates to try, Mbit/s, greater than 0.</param>
/// <param name="Film">Writes a scene's frames at a rate and opens them.</param>
public sealed record SceneCompression(string Codec, IReadOnlyList<double> MegabitsPerSecond, Func<SyntheticScene, double, IFootage> Film);
