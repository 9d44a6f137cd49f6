namespace BosFlow.Architecture.Tests;

/// <summary>
/// Inside BosFlow the folders follow the data: a stage knows the value types of the stages before it and nothing of
/// those after it. The table is repeated in DEVELOPERS.md.
/// </summary>
public sealed class StageOrderTests
{
    /// <summary>The stages in the order of the data, each with the stages whose types it may use.</summary>
    private static readonly (string Stage, string[] MayUse)[] Table =
    [
        ("Speckle", []),
        ("Footage", []),
        ("Camera", ["Footage"]),
        ("Inspection", ["Speckle", "Footage", "Camera"]),
        ("Registration", ["Footage", "Camera"]),
        ("Displacement", ["Footage", "Registration"]),
        ("Statistics", ["Displacement"]),
        ("Optics", ["Camera", "Displacement", "Statistics"]),
        ("Density", ["Footage", "Displacement", "Statistics", "Optics"]),
        ("Triage", ["Footage", "Registration", "Displacement", "Optics"]),
        ("Synthesis", ["Speckle", "Footage", "Camera", "Registration", "Displacement", "Optics"]),
        ("Planning", ["Speckle", "Camera", "Displacement", "Statistics", "Optics", "Synthesis"]),
        ("Pipeline", ["Speckle", "Footage", "Camera", "Registration", "Displacement", "Optics", "Density", "Statistics", "Triage"]),
        ("Validation", ["Speckle", "Footage", "Camera", "Registration", "Displacement", "Optics", "Density", "Statistics", "Synthesis", "Planning", "Pipeline"]),
    ];

    /// <summary>What a stage hands on to the others: its value types and plain functions on them. Whatever else it holds is its own affair.</summary>
    private static readonly Dictionary<string, string[]> Values = new()
    {
        ["Speckle"] = ["Board", "BoardRectangle", "BoardRuler", "BoardSettings", "BoardTones", "DotSize", "Fiducial", "FiducialCode", "PrintedDot"],
        ["Footage"] = ["GrayImage", "PixelMask", "PixelPolygon", "PixelRectangle", "Frame", "GrayLevels", "RegionMask", "FrameQuality", "PixelDefects"],
        ["Camera"] = ["BoardScale", "CameraFacts", "FiducialSighting", "LensKind", "LensModel", "LensParameters", "LensSlopes", "TargetPose", "PictureTones", "PlaneCamera", "PlaneFit", "PlaneFitResult", "PlaneMap", "PlaneModel", "PlanePoint", "ToneCurve"],
        ["Registration"] = ["PlanarMotion", "IPictureMotion"],
        ["Displacement"] = ["NodeGrid", "VectorField", "VectorFlags"],
        ["Statistics"] = ["FieldStatistics"],
        ["Optics"] = ["OpticalScale", "OpticalScaling", "RigGeometry", "GasSettings", "GasProperties", "IdealGas", "ScalarField"],
    };

    /// <summary>Stages that put others to work instead of taking their values.</summary>
    private static readonly string[] Joining = ["Triage", "Synthesis", "Planning", "Pipeline", "Validation"];

    public static TheoryData<string> Stages => [.. Table.Select(row => row.Stage)];

    [Fact]
    public void Table_MayUse_OnlyEarlierStages()
    {
        for (int i = 0; i < Table.Length; i++)
            Assert.All(Table[i].MayUse, used => Assert.Contains(used, Table.Take(i).Select(row => row.Stage)));
    }

    [Fact]
    public void Namespaces_OfTheDomain_AreStages()
    {
        IEnumerable<string> unknown = ProductAssemblies.TypesOf(ProductAssemblies.Domain)
            .Select(StageOf)
            .Where(stage => stage is not null && !Table.Any(row => row.Stage == stage))!;

        SourceTree.AssertNone(unknown.Select(stage => $"BosFlow.{stage} is not in the table of stages"));
    }

    [Theory]
    [MemberData(nameof(Stages))]
    public void Stage_Uses_OnlyStagesOfItsTable(string stage)
    {
        string[] mayUse = Table.Single(row => row.Stage == stage).MayUse;
        IEnumerable<string> findings =
            from type in ProductAssemblies.TypesOf(ProductAssemblies.Domain)
            where StageOf(type) == stage
            from used in MemberUses.TypesUsedBy(type)
            where used.Assembly == type.Assembly
            let other = StageOf(used)
            where other is not null && other != stage
            where !mayUse.Contains(other) || (!Joining.Contains(stage) && !Values.GetValueOrDefault(other, []).Contains(used.Name))
            select $"{type.FullName} uses {used.FullName}: {stage} must not know this; the tables are in {nameof(StageOrderTests)}";

        SourceTree.AssertNone(findings);
    }

    [Fact]
    public void Values_OfEveryStage_Exist()
    {
        HashSet<string> types = [.. ProductAssemblies.TypesOf(ProductAssemblies.Domain).Where(type => type.IsPublic).Select(type => $"{StageOf(type)}.{type.Name}")];

        Assert.All(Values.SelectMany(row => row.Value.Select(name => $"{row.Key}.{name}")), name => Assert.Contains(name, types));
    }

    // "BosFlow.Optics.Gases" belongs to Optics; "BosFlow" itself holds what all stages share.
    private static string? StageOf(Type type) => type.Namespace?.Split('.') is ["BosFlow", string stage, ..] ? stage : null;
}
