using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;

namespace BosFlow.ForeignBytes.Readers;

/// <summary>A small printed board: its description and the table of its dots.</summary>
internal static class BoardInputs
{
    public static IReadOnlyList<Sample> Descriptions(string folder)
    {
        string file = Write(folder);
        return [new Sample(file, () => BoardFile.Read(file))];
    }

    public static IReadOnlyList<Sample> Dots(string folder)
    {
        string file = Write(folder);
        string table = BoardFile.DotsPathOf(file);
        byte[] description = File.ReadAllBytes(file);
        return [new Sample(table, () => ReadSigned(file, description, table))];
    }

    // The hash in the description is put right, so that the lines are read and not only their hash.
    private static void ReadSigned(string file, byte[] description, string table)
    {
        string good = System.Text.Json.JsonDocument.Parse(description).RootElement.GetProperty("dots").GetProperty("sha256").GetString()!;
        string hash = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(table)));
        File.WriteAllText(file, System.Text.Encoding.UTF8.GetString(description).Replace(good, hash, StringComparison.Ordinal));
        try
        {
            BoardFile.Read(file);
        }
        catch (InputDataException refusal) when (refusal.Message.StartsWith(file, StringComparison.Ordinal))
        {
            // What the dots contradict is named by the description; both names belong to the input.
            throw new InputDataException($"{table}: {refusal.Message}", refusal);
        }
    }

    private static string Write(string folder)
    {
        var settings = new BoardSettings
        {
            WidthMetres = 0.06,
            HeightMetres = 0.05,
            Sizes = [new(2.5e-3, 0.6), new(1.2e-3, 0.4)],
            FiducialSideMetres = 0.008,
            Tones = BoardTones.TwoTone,
            Seed = 5,
        };
        var document = new BoardDocument { Board = BoardMaker.Make(settings, CancellationToken.None), Sheets = null, Date = new DateOnly(2026, 11, 25), ProgramVersion = "0.1.0" };
        string file = Path.Combine(folder, "board.json");
        BoardFile.Write(file, document);
        return file;
    }
}
