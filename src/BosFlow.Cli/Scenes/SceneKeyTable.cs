using System.Text;
using BosFlow.Cli.CaseFile;

namespace BosFlow.Cli.Scenes;

/// <summary>Writes the documentation of every key of a scene recipe (docs/recipe.md).</summary>
internal static class SceneKeyTable
{
    /// <summary>A short recipe that is complete.</summary>
    public const string ShortRecipe =
        """
        [scene]
        width_px = 640
        height_px = 480
        frames = 12
        flow_off_frames = 4

        [dots]
        margin_px = 60

        [sensor]
        noise_percent = 1

        [vibration]
        high_hz = 180
        shift_rms_px = 4

        [shutter]
        readout_ms = 9

        [flow]
        kind = "jet"
        nozzle_x_px = 320
        nozzle_y_px = 500
        direction_deg = 87
        half_width_mm = 7
        growth = 0.1
        temperature_c = 300

        [rig]
        lens_to_flow_mm = 1000
        flow_to_background_mm = 1000
        focal_length_mm = 35
        pixel_pitch_um = 5

        """;

    /// <summary>The page in Markdown.</summary>
    public static string Write()
    {
        var page = new StringBuilder();
        page.Append(
            """
            # The recipe of a scene

            One TOML file describes one synthetic scene. `bosflow synth recipe.toml --output scene` renders its frames and writes beside them the exact truth (`truth.nc`), the recipe, and a case file that
            is ready to run. The same recipe gives the same pictures, bit for bit.

            - Every quantity names its unit at the end of its key. A key that does not exist is an error, never ignored.
            - Positions are px of the picture: x to the right, y down, the middle of the first pixel is (0, 0).
            - A section that is left out leaves its fault out: no vibration, an ideal lens, even light.
            - `[rig]` and `[gas]` are those of a [case file](case-file.md).

            How each of them is rendered: [theory.md](theory.md), section 7. This page is generated from the program's own declaration of the keys (`bosflow case-keys --recipe`); a test compares them.

            """);
        CaseKeyTable.AppendSections(page, SceneKeys.Sections);
        page.Append("\n## A short complete recipe\n\n```toml\n").Append(ShortRecipe).Append("```\n");
        return page.ToString();
    }
}
