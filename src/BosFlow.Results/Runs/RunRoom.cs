using BosFlow.Displacement;

namespace BosFlow.Results.Runs;

/// <summary>How much room on the disk a run wants to find before it writes.</summary>
internal static class RunRoom
{
    // Fields of summary.nc with every twin a density brings, and pictures with the page that shows them again.
    private const int MostFields = 40;
    private const long Pictures = 16 << 20;

    /// <summary>Room that must be left after a frame's file: for those written at the same time and for the summary, bytes.</summary>
    /// <param name="frameBytes">Size of a frame's file.</param>
    /// <param name="framesAtATime">Number of frames written at the same time.</param>
    /// <param name="grid">Grid of the frames.</param>
    public static long AfterFrame(long frameBytes, int framesAtATime, NodeGrid grid) => ((framesAtATime - 1) * frameBytes) + Summary(grid);

    /// <summary>Room for reference, summary, maps and report, bytes; an upper bound, for compressed they are smaller.</summary>
    /// <param name="grid">Grid of the frames.</param>
    public static long Summary(NodeGrid grid)
    {
        double picturePixels = (grid.Columns + 1) * grid.Spacing * (grid.Rows + 1) * grid.Spacing;
        return (sizeof(float) * ((long)picturePixels + ((long)MostFields * grid.Count))) + Pictures;
    }
}
