namespace BosFlow.Displacement;

/// <summary>Working memory of one thread for <see cref="MovedSums"/>: one entry a block of a row.</summary>
/// <param name="blocks">Blocks side by side.</param>
/// <param name="gridColumns">Columns of nodes.</param>
/// <param name="nodeColumns">Those outside the grid included.</param>
internal sealed class MovedRow(int blocks, int gridColumns, int nodeColumns)
{
    /// <summary>By how much the displacement to the right has changed, px.</summary>
    public float[] U { get; } = new float[blocks];

    /// <summary>The same, down.</summary>
    public float[] V { get; } = new float[blocks];

    /// <summary>The three that follow, at the nodes of a row.</summary>
    public (float Gain, float WithoutNoiseU, float WithoutNoiseV)[] Nodes { get; } = new (float, float, float)[gridColumns];

    /// <summary>Gain of the frame's contrast.</summary>
    public float[] Gain { get; } = new float[blocks];

    /// <summary>Share of the squares of the derivatives to the right that is not noise.</summary>
    public float[] WithoutNoiseU { get; } = new float[blocks];

    /// <summary>The same, down.</summary>
    public float[] WithoutNoiseV { get; } = new float[blocks];

    /// <summary>A row of nodes.</summary>
    public float[] Line { get; } = new float[nodeColumns];
}
