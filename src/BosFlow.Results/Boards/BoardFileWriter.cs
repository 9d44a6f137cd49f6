using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Writes the JSON of a description; keys in a fixed order, lengths in mm.</summary>
internal sealed class BoardFileWriter
{
    public static readonly IReadOnlyDictionary<BoardTones, string> ToneWords = new Dictionary<BoardTones, string>
    {
        [BoardTones.Dark] = "dark",
        [BoardTones.Inverted] = "inverted",
        [BoardTones.TwoTone] = "two-tone",
    };

    private readonly Utf8JsonWriter json;

    private BoardFileWriter(Utf8JsonWriter json)
    {
        this.json = json;
    }

    public static void Write(Stream stream, BoardDocument document, string dotsFile, string dotsHash)
    {
        var options = new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
        using (var json = new Utf8JsonWriter(stream, options))
            new BoardFileWriter(json).WriteAll(document, dotsFile, dotsHash);
        stream.WriteByte((byte)'\n');
    }

    private void WriteAll(BoardDocument document, string dotsFile, string dotsHash)
    {
        Board board = document.Board;
        json.WriteStartObject();
        json.WriteString("format", BoardFile.Format);
        json.WriteNumber("version", BoardFile.Version);
        json.WriteString("program_version", document.ProgramVersion);
        json.WriteString("date", document.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        WriteSettings(board.Settings);
        json.WriteNumber("coverage_reached", board.CoverageReached);
        WriteRectangle("pattern", board.Pattern);
        WriteRectangle("legend", board.Legend);
        WriteFiducials(board);
        WriteList("rulers", board.Rulers, ruler =>
        {
            WriteLength("x_mm", ruler.X);
            WriteLength("y_mm", ruler.Y);
            WriteLength("length_mm", ruler.Length);
            json.WriteString("direction", ruler.IsVertical ? "down" : "right");
        });
        WriteSheets(document.Sheets);
        json.WriteStartObject("dots");
        json.WriteString("file", dotsFile);
        json.WriteString("sha256", dotsHash);
        json.WriteNumber("count", board.Dots.Count);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private void WriteSettings(BoardSettings settings)
    {
        WriteLength("board_width_mm", settings.WidthMetres);
        WriteLength("board_height_mm", settings.HeightMetres);
        WriteList("dot_sizes", settings.Sizes, size =>
        {
            WriteLength("diameter_mm", size.DiameterMetres);
            json.WriteNumber("share", size.Share);
        });
        json.WriteNumber("coverage", settings.Coverage);
        WriteLength("least_gap_mm", settings.LeastGapMetres);
        json.WriteString("tones", ToneWords[settings.Tones]);
        json.WriteNumber("seed", settings.Seed);
        json.WriteBoolean("with_fiducials", settings.WithFiducials);
        WriteLength("fiducial_side_mm", settings.FiducialSideMetres);
        WriteLength("ink_gain_mm", settings.InkGainMetres);
        WriteLength("longest_ruler_mm", settings.LongestRulerMetres);
    }

    private void WriteFiducials(Board board)
    {
        json.WriteString("fiducial_family", FiducialCode.Family);
        WriteLength("fiducial_quiet_zone_mm", board.FiducialQuietZone);
        WriteList("fiducials", board.Fiducials, fiducial =>
        {
            json.WriteNumber("id", fiducial.Id);
            WriteLength("x_mm", fiducial.X);
            WriteLength("y_mm", fiducial.Y);
            WriteLength("side_mm", fiducial.Side);
        });
    }

    private void WriteSheets(SheetPlan? plan)
    {
        if (plan is null)
        {
            json.WriteNull("sheets");
            return;
        }

        json.WriteStartObject("sheets");
        json.WriteString("paper", plan.Paper.Name);
        WriteLength("paper_width_mm", plan.Paper.WidthMetres);
        WriteLength("paper_height_mm", plan.Paper.HeightMetres);
        WriteLength("margin_mm", plan.MarginMetres);
        WriteLength("overlap_mm", plan.OverlapMetres);
        json.WriteNumber("columns", plan.Columns);
        json.WriteNumber("rows", plan.Rows);
        WriteList("list", plan.Sheets, sheet =>
        {
            json.WriteString("name", sheet.Name);
            json.WriteNumber("column", sheet.Column);
            json.WriteNumber("row", sheet.Row);
            WriteRectangle("net", sheet.Net);
            WriteRectangle("printed", sheet.Printed);
            WriteLength("offset_x_mm", sheet.OffsetX);
            WriteLength("offset_y_mm", sheet.OffsetY);
        });
        json.WriteEndObject();
    }

    private void WriteRectangle(string key, BoardRectangle rectangle)
    {
        json.WriteStartObject(key);
        WriteLength("left_mm", rectangle.Left);
        WriteLength("top_mm", rectangle.Top);
        WriteLength("width_mm", rectangle.Width);
        WriteLength("height_mm", rectangle.Height);
        json.WriteEndObject();
    }

    private void WriteList<T>(string key, IReadOnlyList<T> items, Action<T> write)
    {
        json.WriteStartArray(key);
        foreach (T item in items)
        {
            json.WriteStartObject();
            write(item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private void WriteLength(string key, double? metres)
    {
        if (metres is { } length)
            json.WriteNumber(key, BoardFileMillimetres.OfMetres(length));
        else
            json.WriteNull(key);
    }
}
