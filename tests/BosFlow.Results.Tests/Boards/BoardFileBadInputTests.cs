using System.Security.Cryptography;
using System.Text;
using BosFlow.Results.Boards;
using BosFlow.Speckle;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Boards;

public sealed class BoardFileBadInputTests : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly string path;
    private readonly string json;
    private readonly string table;

    public BoardFileBadInputTests()
    {
        path = folder.PathOf("board.json");
        BoardFile.Write(path, SampleBoard.Document(SampleBoard.Settings(), isCutToSheets: true));
        json = File.ReadAllText(path);
        table = File.ReadAllText(TablePath);
    }

    private string TablePath => BoardFile.DotsPathOf(path);

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("\"format\": \"bosflow-board\"", "\"format\": \"other\"", "is not a board description")]
    [InlineData("\"format\": \"bosflow-board\",", "", "the key format is missing")]
    [InlineData("\"version\": 1,", "\"version\": 2,", "is a board description of version 2; this program reads version 1")]
    [InlineData("\"version\": 1,", "\"version\": 1, \"version\": 1,", "is no valid JSON")]
    [InlineData("\"board_width_mm\": 100", "\"board_width_mm\": -100", "board_width_mm must be a number of mm from 0")]
    [InlineData("\"board_width_mm\": 100", "\"board_width_mm\": 1e400", "board_width_mm must be a number of mm from 0")]
    [InlineData("\"board_width_mm\": 100", "\"board_width_mm\": NaN", "is no valid JSON")]
    [InlineData("\"board_width_mm\": 100", "\"board_width_mm\": 50", "reaches beyond the board")]
    [InlineData("\"board_width_mm\": 100", "\"board_width_mm\": \"100\"", "board_width_mm must be a number of mm")]
    [InlineData("\"seed\": 18446744073709551615", "\"seed\": 18446744073709551616", "seed must be a whole number")]
    [InlineData("\"tones\": \"two-tone\"", "\"tones\": \"three-tone\"", "tones must be dark, inverted or two-tone")]
    [InlineData("\"coverage\": 0.35", "\"coverage\": 0.9", "the largest coverage for that gap is")]
    [InlineData("\"date\": \"2026-11-25\"", "\"date\": \"25 November\"", "date must be a date like 2026-11-25")]
    [InlineData("\"fiducial_family\": \"ARUCO_MIP_36h12\"", "\"fiducial_family\": \"other\"", "only ARUCO_MIP_36h12 is known")]
    [InlineData("\"id\": 1,", "\"id\": 0,", "fiducials names an identity twice")]
    [InlineData("\"id\": 1,", "\"id\": 250,", "fiducials[1].id must be a whole number from 0 to 249")]
    [InlineData("\"id\": 1,", "\"id\": 1.5,", "fiducials[1].id must be a whole number from 0 to 249")]
    [InlineData("\"direction\": \"right\"", "\"direction\": \"up\"", "direction must be right or down")]
    [InlineData("\"columns\": 2", "\"columns\": 3", "columns and")]
    [InlineData("\"name\": \"A2\",\n        \"column\": 1", "\"name\": \"A2\",\n        \"column\": 0", "does not meet its neighbours")]
    [InlineData("\"file\": \"board.dots.csv\"", "\"file\": \"../board.dots.csv\"", "must be the bare name of a .csv file")]
    [InlineData("\"file\": \"board.dots.csv\"", "\"file\": \"/etc/board.csv\"", "must be the bare name of a .csv file")]
    [InlineData("\"file\": \"board.dots.csv\"", "\"file\": \"..\\\\board.csv\"", "must be the bare name of a .csv file")]
    [InlineData("\"file\": \"board.dots.csv\"", "\"file\": \"board\\u0000.csv\"", "must be a text of 1 to 200 letters")]
    [InlineData("\"file\": \"board.dots.csv\"", "\"file\": \"\\ud800.csv\"", "is no readable text")]
    [InlineData("\"file\": \"board.dots.csv\"", "\"file\": \"missing.csv\"", "missing.csv cannot be read")]
    [InlineData("\"coverage_reached\": 0.3", "\"coverage_reached\": 0.2", "but the dots cover 0.3")]
    public void Read_OneFaultInTheDescription_IsNamedInOneSentence(string from, string to, string part)
    {
        Assert.Contains(from, json, StringComparison.Ordinal);
        int at = json.IndexOf(from, StringComparison.Ordinal);
        File.WriteAllText(path, json[..at] + to + json[(at + from.Length)..]);

        InputDataException fault = Assert.Throws<InputDataException>(() => BoardFile.Read(path));

        Assert.Contains(part, fault.Message, StringComparison.Ordinal);
        Assert.Contains(folder.Root, fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("x_mm,y_mm", "y_mm,x_mm", "line 1 is not the heading")]
    [InlineData(",2.5000,", ",2.4000,", "line 2: the diameter is none of the description's dot sizes")]
    [InlineData(",2.5000,", ",2.500,", "line 2: x_mm, y_mm and diameter_mm must be numbers with four decimals")]
    [InlineData(",2.5000,", ",-2.500,", "line 2: x_mm, y_mm and diameter_mm must be numbers with four decimals")]
    [InlineData("tone\n", "tone\nNaN0.0000,1.0000,2.5000,dark\n", "line 2: x_mm, y_mm and diameter_mm must be numbers with four decimals")]
    [InlineData("tone\n", "tone\n0.0000,1.0000,2.5000,dark\n", "line 2: the dot lies outside the pattern")]
    [InlineData("tone\n", "tone\n50.0000,40.0000,2.5000,grey\n", "line 2: the tone must be dark or light")]
    [InlineData("tone\n", "tone\n50.0000,40.0000,2.5000,dark\n", "dots, the description says")]
    [InlineData("tone\n", "tone\n50.00000000000000000000000000000000000000000000000000000000000000000000000000\n", "line 2: x_mm")]
    public void Read_OneFaultInTheTable_IsNamedWithItsLine(string from, string to, string part)
    {
        int at = table.IndexOf(from, StringComparison.Ordinal);
        WriteTable(Encoding.UTF8.GetBytes(table[..at] + to + table[(at + from.Length)..]));

        Assert.Contains(part, Assert.Throws<InputDataException>(() => BoardFile.Read(path)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_TableOfAnotherPrinting_IsRefusedByItsHash()
    {
        BoardFile.Write(folder.PathOf("other.json"), SampleBoard.Document(SampleBoard.Settings() with { Seed = 2 }, isCutToSheets: true));
        File.Copy(folder.PathOf("other.dots.csv"), TablePath, overwrite: true);

        Assert.Contains("SHA-256 differs", Assert.Throws<InputDataException>(() => BoardFile.Read(path)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ReadWithoutDots_TableMissing_GivesEverythingElse()
    {
        File.Delete(TablePath);

        BoardDocument document = BoardFile.ReadWithoutDots(path);

        Assert.Empty(document.Board.Dots);
        Assert.Equal(table.Count(c => c == '\n') - 1, document.DotCount);
        Assert.Throws<InputDataException>(() => BoardFile.Read(path));
        Assert.Throws<ArgumentException>(() => BoardFile.Write(path, document));
    }

    [Fact]
    public void Read_HugeCountOverASmallTable_ReservesNothingForIt()
    {
        int at = json.IndexOf("\"count\": ", StringComparison.Ordinal);
        File.WriteAllText(path, json[..at] + "\"count\": 20000000 } }");

        long before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Contains("cannot be the 20000000 dots", Assert.Throws<InputDataException>(() => BoardFile.Read(path)).Message, StringComparison.Ordinal);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 4_000_000);
    }

    [Fact]
    public void Read_FileThatNeverEnds_StopsAtTheLimit()
    {
        using (var large = new FileStream(path, FileMode.Create))
            large.SetLength(1L << 33);
        Assert.Contains("larger than 4 MB", Assert.Throws<InputDataException>(() => BoardFile.Read(path)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_NoSuchFile_IsOneSentence() =>
        Assert.Contains("check the path", Assert.Throws<InputDataException>(() => BoardFile.Read(folder.PathOf("none.json"))).Message, StringComparison.Ordinal);

    [Fact]
    public void Read_MutatedDescriptions_OnlyEverGiveInputDataException()
    {
        byte[] good = Encoding.UTF8.GetBytes(json);
        int refused = 0;
        for (ulong seed = 0; seed < 2000; seed++)
        {
            File.WriteAllBytes(path, Mutate(good, seed));
            refused += IsRefused() ? 1 : 0;
        }

        // Some mutations only change a value; most break something.
        Assert.InRange(refused, 1000, 2000);
    }

    [Fact]
    public void Read_MutatedTablesWithTheirHash_OnlyEverGiveInputDataException()
    {
        byte[] good = Encoding.UTF8.GetBytes(table);
        int refused = 0;
        for (ulong seed = 0; seed < 1000; seed++)
        {
            WriteTable(Mutate(good, seed));
            refused += IsRefused() ? 1 : 0;
        }

        Assert.InRange(refused, 500, 1000);
    }

    private bool IsRefused()
    {
        try
        {
            BoardFile.Read(path);
            return false;
        }
        catch (InputDataException e)
        {
            Assert.DoesNotContain('\n', e.Message);
            return true;
        }
    }

    // A few bytes changed, taken out, put in or doubled, or the end cut off.
    private static byte[] Mutate(byte[] good, ulong seed)
    {
        var random = new SeededRandom(seed);
        List<byte> bytes = [.. good];
        int changes = 1 + (int)(random.NextUniform() * 3);
        for (int i = 0; i < changes && bytes.Count > 0; i++)
        {
            int at = (int)(random.NextUniform() * bytes.Count);
            int length = Math.Min(bytes.Count - at, 1 + (int)(random.NextUniform() * 12));
            switch ((int)(random.NextUniform() * 6))
            {
                case 0: bytes[at] = (byte)random.NextBits(); break;
                case 1: bytes.RemoveRange(at, length); break;
                case 2: bytes.InsertRange(at, bytes.GetRange(at, length)); break;
                case 3: bytes[at] = (byte)"0123456789-.eE\"{}[],:"[(int)(random.NextUniform() * 21)]; break;
                case 4: bytes.InsertRange(at, Encoding.UTF8.GetBytes(random.NextUniform() < 0.5 ? "999999999999" : "null")); break;
                default:
                    if (random.NextUniform() < 0.2)
                        bytes.RemoveRange(at, bytes.Count - at);
                    break;
            }
        }

        return [.. bytes];
    }

    private void WriteTable(byte[] bytes)
    {
        File.WriteAllBytes(TablePath, bytes);
        int at = json.IndexOf("\"sha256\": \"", StringComparison.Ordinal) + 11;
        File.WriteAllText(path, json[..at] + Convert.ToHexStringLower(SHA256.HashData(bytes)) + json[(at + 64)..]);
    }
}
