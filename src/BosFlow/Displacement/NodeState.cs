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

    public float[] Correlation { get; }

    public float[] PeakRatio { get; }

    public VectorFlags[] Flags { get; }

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
