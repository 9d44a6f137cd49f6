namespace BosFlow.Displacement;

/// <summary>Working arrays of one frame at the nodes of one grid; owned by one thread.</summary>
internal sealed class NodeState
{
    public NodeState(NodeGrid grid)
    {
        Grid = grid;
        MotionU = new float[grid.Count];
        MotionV = new float[grid.Count];
        U = new float[grid.Count];
        V = new float[grid.Count];
        SigmaU = new float[grid.Count];
        SigmaV = new float[grid.Count];
        ScatterU = new float[grid.Count];
        ScatterV = new float[grid.Count];
        Correlation = new float[grid.Count];
        PeakRatio = new float[grid.Count];
        Flags = new VectorFlags[grid.Count];
        IsHalf = new bool[grid.Count];
        ShapeOrder = new byte[grid.Count];
        MovedU = new float[grid.Count];
        MovedV = new float[grid.Count];
        MissingU = new float[grid.Count];
        MissingV = new float[grid.Count];
    }

    public NodeGrid Grid { get; }

    /// <summary>Displacement by the motion of the background, px.</summary>
    public float[] MotionU { get; }

    public float[] MotionV { get; }

    /// <summary>Displacement beyond that motion, px; NaN where it is not known.</summary>
    public float[] U { get; }

    public float[] V { get; }

    /// <summary>Standard uncertainty of the last step alone (<see cref="MatchedWindow"/>), px.</summary>
    public float[] SigmaU { get; }

    public float[] SigmaV { get; }

    /// <summary>Variance of u as the residuals scatter from block to block over that of residuals which are independent from pixel to pixel; 1 where it is not known.</summary>
    public float[] ScatterU { get; }

    public float[] ScatterV { get; }

    /// <summary>How far the displacement has moved since the frame was read with it, px (<see cref="MovedSums"/>).</summary>
    public float[] MovedU { get; }

    public float[] MovedV { get; }

    public float[] Correlation { get; }

    public float[] PeakRatio { get; }

    public VectorFlags[] Flags { get; }

    /// <summary>Where the next pass reads the frame.</summary>
    public Sampling Sampling { get; set; }

    /// <summary>What the next pass may do about the sides of its windows.</summary>
    public WindowChoice Choice { get; set; }

    /// <summary>Variance that the coarse pass's error leaves in every vector, px^2 (<see cref="CoarseRemainder"/>).</summary>
    public double CoarseVariance { get; set; }

    /// <summary>Whether the next pass fits the polynomials of the settings instead of a shift alone.</summary>
    public bool FitsShape { get; set; }

    /// <summary>Degree of the polynomial that measured a vector; 0 for a shift alone.</summary>
    public byte[] ShapeOrder { get; }

    /// <summary>Whether a vector is that of a window of half the side.</summary>
    public bool[] IsHalf { get; }

    /// <summary>Square of what a half window is taken to miss of u (<see cref="WindowSelection"/>), px^2; 0 for whole windows.</summary>
    public float[] MissingU { get; }

    public float[] MissingV { get; }

    /// <summary>Takes whole windows everywhere.</summary>
    public void ForgetHalves()
    {
        Array.Clear(IsHalf);
        Array.Clear(MissingU);
        Array.Clear(MissingV);
    }

    /// <summary>Takes the whole window at a node.</summary>
    public void ForgetHalf(int node)
    {
        IsHalf[node] = false;
        MissingU[node] = MissingV[node] = 0;
    }

    /// <summary>Starts a pass at a node with what the reference says of it; false, and the node dropped, where it cannot be measured.</summary>
    public bool Begin(int node, VectorFlags reference)
    {
        Flags[node] = reference;
        if (reference == VectorFlags.None)
            return true;
        Drop(node, reference);
        return false;
    }

    /// <summary>Marks a node as not measured.</summary>
    public void Drop(int node, VectorFlags why)
    {
        U[node] = V[node] = SigmaU[node] = SigmaV[node] = float.NaN;
        Correlation[node] = float.NaN;
        Flags[node] |= why;
    }
}
