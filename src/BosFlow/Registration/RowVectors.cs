namespace BosFlow.Registration;

/// <summary>The usable vectors of one fit by rows.</summary>
internal sealed class RowVectors
{
    private RowVectors(double[] x, double[] y, double[] u, double[] v)
    {
        X = x;
        Y = y;
        U = u;
        V = v;
    }

    public double[] X { get; }

    public double[] Y { get; }

    public double[] U { get; }

    public double[] V { get; }

    public int Count => X.Length;

    /// <summary>Leaves out what is not finite.</summary>
    public static RowVectors Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v)
    {
        if (y.Length != x.Length || u.Length != x.Length || v.Length != x.Length)
            throw new ArgumentException("Positions and displacements must have the same number of entries.", nameof(x));
        var (keptX, keptY, keptU, keptV) = (new List<double>(x.Length), new List<double>(x.Length), new List<double>(x.Length), new List<double>(x.Length));
        for (int i = 0; i < x.Length; i++)
        {
            if (!double.IsFinite(x[i] + y[i] + u[i] + v[i]))
                continue;
            keptX.Add(x[i]);
            keptY.Add(y[i]);
            keptU.Add(u[i]);
            keptV.Add(v[i]);
        }

        return new RowVectors([.. keptX], [.. keptY], [.. keptU], [.. keptV]);
    }

    /// <summary>Squared distance of every vector from a motion, px squared.</summary>
    public void SquaredResiduals(IPictureMotion motion, Span<double> squares)
    {
        for (int i = 0; i < Count; i++)
        {
            (double u, double v) = motion.DisplacementAt(X[i], Y[i]);
            squares[i] = ((U[i] - u) * (U[i] - u)) + ((V[i] - v) * (V[i] - v));
        }
    }
}
