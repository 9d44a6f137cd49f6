using System.Text.Json.Nodes;
using BosFlow.Planning;
using BosFlow.Results.Plans;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Plans;

public sealed class PlanFolderTests : IDisposable
{
    private static readonly SweepAxis Apertures = new(PlanQuantity.FNumber, "f_number", "f-number", string.Empty, 1, [2.8, 5.6, 11, 22]);
    private static readonly SweepAxis Splits = new(PlanQuantity.Split, "split", "part behind the flow", string.Empty, 1, [0.2, 0.4, 0.6]);

    private readonly TemporaryFolder folder = new();

    [Fact]
    public void Write_TheSamePlanTwice_GivesTheSameBytes()
    {
        string first = Path.Combine(folder.Root, "first");
        string second = Path.Combine(folder.Root, "second");

        IReadOnlyList<string> files = PlanFolder.Write(first, SamplePlan.Result, Studies(), PlanJson.Of(SamplePlan.Result), "1.2.3");
        PlanFolder.Write(second, SamplePlan.Result, Studies(), PlanJson.Of(SamplePlan.Result), "1.2.3");

        Assert.Equal(["plan.html", "plan.json", "plan.png", "sweep.png"], files.Select(Path.GetFileName));
        Assert.All(files, file => Assert.Equal(File.ReadAllBytes(file), File.ReadAllBytes(Path.Combine(second, Path.GetFileName(file)))));
        Assert.Equal(4, Directory.EnumerateFileSystemEntries(first).Count());
    }

    [Fact]
    public void Write_ThePage_IsSelfContainedAndHasCautions()
    {
        PlanResult plan = SamplePlan.Result with { Warnings = [new PlanWarning("The board is <small>.", "Print it larger.")] };

        PlanFolder.Write(folder.Root, plan, Studies(), [], "1.2.3");

        string page = File.ReadAllText(Path.Combine(folder.Root, "plan.html"));
        Assert.DoesNotContain("http", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.Contains("The board is &lt;small&gt;. Print it larger.", page, StringComparison.Ordinal);
        Assert.All(PlanCautions.Sentences, sentence => Assert.Contains(System.Net.WebUtility.HtmlEncode(sentence), page, StringComparison.Ordinal));
        Assert.Equal(2, page.Split("<img ").Length - 1);
    }

    [Fact]
    public void Check_PlanFilesThere_AreRefusedUnlessForced()
    {
        folder.Write("plan.html", "mine");

        InputDataException refused = Assert.Throws<InputDataException>(() => PlanFolder.Check(folder.Root, [], force: false));
        PlanFolder.Check(folder.Root, [], force: true);

        Assert.Equal($"{folder.Root} holds plan.html already and nothing is overwritten; give another --output, or --force to replace.", refused.Message);
    }

    [Fact]
    public void Check_FolderWithOtherFiles_IsFine()
    {
        folder.Write("case.toml", "mine");

        PlanFolder.Check(folder.Root, ["sweep.png"], force: false);
    }

    [Fact]
    public void Check_NameOfAFile_IsRefused()
    {
        string file = folder.Write("plans", "a file");

        Assert.StartsWith($"{file} is a file;", Assert.Throws<InputDataException>(() => PlanFolder.Check(file, [], force: true)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_DepthToInfinity_IsNullWithItsMark()
    {
        JsonObject document = PlanJson.Of(SamplePlan.Result with { DepthOfField = (1.5, double.PositiveInfinity) });

        Assert.Null(document["depth_of_field_far_m"]);
        Assert.True((bool)document["depth_of_field_is_infinite"]!);
        Assert.False((bool)PlanJson.Of(SamplePlan.Result)["depth_of_field_is_infinite"]!);
    }

    [Fact]
    public void SweepStudy_AnImpossibleValue_IsADashWithItsReason()
    {
        IReadOnlyList<PlanStep> steps = [new(0.02, SamplePlan.Result, null), new(5, null, "No lens can focus there.")];
        var axis = new SweepAxis(PlanQuantity.FocalLength, "focal_length_mm", "focal length", "mm", 1e3, [0.02, 5]);

        PlanStudy study = SweepStudy.Of(SamplePlan.Result, axis, steps);

        Assert.Equal("focal_length_mm", study.Columns[0]);
        Assert.Equal("-", study.Rows[1][1]);
        Assert.EndsWith("5000 cannot be: No lens can focus there.", study.Note, StringComparison.Ordinal);
        Assert.All(study.Rows, row => Assert.Equal(study.Columns.Count, row.Count));
    }

    [Fact]
    public void SweepMapStudy_TwoQuantities_HasARowForEachValueAndTheRatios()
    {
        PlanStudy study = Map();

        Assert.Equal(3, study.Rows.Count);
        Assert.Equal(["split \\ f_number", "2.8", "5.6", "11", "22"], study.Columns);
        Assert.Equal(study.Document["ratio"]!.AsArray().Count, study.Rows.Count);
        Assert.StartsWith("The plan as it is: f_number 8, split 0.375, ratio ", study.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void OptimumStudy_ASearch_MarksTheBestAndSaysHowToTakeItOver()
    {
        PlanOptimum optimum = PlanOptimiser.Find(SamplePlan.Request, new PlanLimits { LongestBoardDistanceMetres = 1.6, FNumbers = [5.6, 8] }, CancellationToken.None);

        PlanStudy study = OptimumStudy.Of(SamplePlan.Result, optimum);

        Assert.Single(study.Rows, row => row[0] == "*");
        Assert.Contains("--lens-to-flow-mm ", study.Note, StringComparison.Ordinal);
        Assert.All(study.Rows, row => Assert.Equal(study.Columns.Count, row.Count));
    }

    public void Dispose() => folder.Dispose();

    private static PlanStudy[] Studies() => [SweepStudy.Of(SamplePlan.Result, Apertures, PlanSweep.Run(SamplePlan.Request, PlanQuantity.FNumber, Apertures.Values, CancellationToken.None))];

    private static PlanStudy Map() => SweepMapStudy.Of(
        SamplePlan.Result, Apertures, Splits,
        [.. Splits.Values.Select(split => PlanSweep.Run(PlanSweep.With(SamplePlan.Request, PlanQuantity.Split, split), PlanQuantity.FNumber, Apertures.Values, CancellationToken.None))]);
}
