using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;

namespace BosFlow.Tests.Density;

public sealed class AmbientNodesTests
{
    private static readonly NodeGrid Grid = new(4, 4, 8, 6, 5);

    [Fact]
    public void Of_Edges_AreTheOutermostLinesThatWereMeasured()
    {
        // Column 0 and row 4 were measured nowhere, node (1, 2) not either.
        bool[] isMeasured = [.. Enumerable.Range(0, Grid.Count).Select(node => node % 6 != 0 && node / 6 != 4 && node != 13)];

        bool[] isAmbient = AmbientNodes.Of(Grid, isMeasured, new FlowSettings { AmbientEdges = PictureEdge.Left | PictureEdge.Bottom });

        Assert.Equal([1, 7, 19, 20, 21, 22, 23], Numbers(isAmbient));
    }

    [Fact]
    public void Of_TopAndRight_AreTheFirstRowAndTheLastColumn()
    {
        bool[] isAmbient = AmbientNodes.Of(Grid, Enumerable.Repeat(true, Grid.Count).ToArray(), new FlowSettings { AmbientEdges = PictureEdge.Top | PictureEdge.Right });

        Assert.Equal([0, 1, 2, 3, 4, 5, 11, 17, 23, 29], Numbers(isAmbient));
    }

    [Fact]
    public void Of_Region_IsWhatLiesInsideAndWasMeasured()
    {
        var region = new PixelPolygon([(10, 10), (30, 10), (30, 22), (10, 22)]);
        bool[] isMeasured = [.. Enumerable.Range(0, Grid.Count).Select(node => node != 8)];

        bool[] isAmbient = AmbientNodes.Of(Grid, isMeasured, new FlowSettings { AmbientRegions = [region] });

        // Columns 1 to 3 (12, 20, 28 px), rows 1 and 2 (12, 20 px).
        Assert.Equal([7, 9, 13, 14, 15], Numbers(isAmbient));
    }

    [Fact]
    public void Of_NothingMeasured_IsNowhere() =>
        Assert.DoesNotContain(true, AmbientNodes.Of(Grid, new bool[Grid.Count], new FlowSettings { AmbientEdges = PictureEdge.Left }));

    private static IEnumerable<int> Numbers(bool[] marks) => Enumerable.Range(0, marks.Length).Where(i => marks[i]);
}
