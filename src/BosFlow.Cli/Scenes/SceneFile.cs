using BosFlow.Media;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>What a recipe file says.</summary>
/// <param name="Recipe">The scene.</param>
/// <param name="Video">How its video is encoded; null where the recipe asks for none.</param>
internal sealed record SceneFile(SceneRecipe Recipe, VideoEncoding? Video);
