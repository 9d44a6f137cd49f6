namespace BosFlow.Displacement;

/// <summary>Results of windows, side by side; a Du of NaN says that the window has no solution.</summary>
/// <param name="columns">Number of windows.</param>
internal sealed class MatchedRow(int columns)
{
    public float[] Du { get; } = new float[columns];

    public float[] Dv { get; } = new float[columns];

    public float[] SigmaU { get; } = new float[columns];

    public float[] SigmaV { get; } = new float[columns];

    public float[] Correlation { get; } = new float[columns];

    public float[] Gain { get; } = new float[columns];

    public float[] Offset { get; } = new float[columns];

    public void Set(int column, MatchedWindow match)
    {
        Du[column] = (float)match.Du;
        Dv[column] = (float)match.Dv;
        SigmaU[column] = (float)match.SigmaU;
        SigmaV[column] = (float)match.SigmaV;
        Correlation[column] = (float)match.Correlation;
        Gain[column] = (float)match.Gain;
        Offset[column] = (float)match.Offset;
    }

    /// <summary>Copies the whole row to a place in another.</summary>
    public void CopyTo(MatchedRow target, int first)
    {
        Du.CopyTo(target.Du, first);
        Dv.CopyTo(target.Dv, first);
        SigmaU.CopyTo(target.SigmaU, first);
        SigmaV.CopyTo(target.SigmaV, first);
        Correlation.CopyTo(target.Correlation, first);
        Gain.CopyTo(target.Gain, first);
        Offset.CopyTo(target.Offset, first);
    }

    public MatchedWindow At(int column) => new(Du[column], Dv[column], SigmaU[column], SigmaV[column], Correlation[column], Gain[column], Offset[column]);
}
