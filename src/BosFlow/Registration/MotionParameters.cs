namespace BosFlow.Registration;

/// <summary>
/// A motion model as a function of its parameters, between scaled points. All parameters 0 is the identity.
/// Shift: t. Rigid: angle, t. Similarity: a, b, t with matrix [1+a, -b; b, 1+a]. Homography: the eight entries of H minus the identity.
/// </summary>
internal sealed class MotionParameters
{
    public const int MostParameters = 8;

    private readonly MotionModel model;

    public MotionParameters(MotionModel model)
    {
        this.model = model;
        (Count, SampleSize, FewestVectors) = model switch
        {
            MotionModel.Shift => (2, 1, 3),
            MotionModel.Rigid => (3, 2, 4),
            MotionModel.Similarity => (4, 2, 4),
            MotionModel.Homography => (8, 4, 8),
            _ => throw new ArgumentOutOfRangeException(nameof(model), model, "The model has no parameters."),
        };
    }

    /// <summary>Number of parameters.</summary>
    public int Count { get; }

    /// <summary>Whether the mapped point is a linear function of the parameters.</summary>
    public bool IsLinear => model is MotionModel.Shift or MotionModel.Similarity;

    /// <summary>Whether the motion is a similarity.</summary>
    public bool IsSimilarity => model == MotionModel.Similarity;

    /// <summary>Fewest vectors that determine the parameters.</summary>
    public int SampleSize { get; }

    /// <summary>Fewest vectors of which a fit is accepted: some are needed to notice that others are wrong.</summary>
    public int FewestVectors { get; }

    /// <summary>The projective matrix of the parameters, row-major, 9 entries.</summary>
    public void Matrix(ReadOnlySpan<double> p, Span<double> h)
    {
        switch (model)
        {
            case MotionModel.Shift:
                SetMatrix(h, 1, 0, p[0], p[1]);
                break;
            case MotionModel.Rigid:
                SetMatrix(h, Math.Cos(p[0]), Math.Sin(p[0]), p[1], p[2]);
                break;
            case MotionModel.Similarity:
                SetMatrix(h, 1 + p[0], p[1], p[2], p[3]);
                break;
            default:
                p[..8].CopyTo(h);
                h[0] += 1;
                h[4] += 1;
                h[8] = 1;
                break;
        }
    }

    /// <summary>Derivative of the mapped point by the parameters, at a scaled point.</summary>
    public void Jacobian(ReadOnlySpan<double> p, double x, double y, Span<double> ju, Span<double> jv)
    {
        switch (model)
        {
            case MotionModel.Shift:
                (ju[0], ju[1]) = (1, 0);
                (jv[0], jv[1]) = (0, 1);
                break;
            case MotionModel.Rigid:
                (double sine, double cosine) = Math.SinCos(p[0]);
                (ju[0], ju[1], ju[2]) = ((-sine * x) - (cosine * y), 1, 0);
                (jv[0], jv[1], jv[2]) = ((cosine * x) - (sine * y), 0, 1);
                break;
            case MotionModel.Similarity:
                (ju[0], ju[1], ju[2], ju[3]) = (x, -y, 1, 0);
                (jv[0], jv[1], jv[2], jv[3]) = (y, x, 0, 1);
                break;
            default:
                HomographyJacobian(p, x, y, ju, jv);
                break;
        }
    }

    /// <summary>Maps a point by a projective matrix.</summary>
    public static (double X, double Y) Map(ReadOnlySpan<double> h, double x, double y)
    {
        double w = (h[6] * x) + (h[7] * y) + h[8];
        return (((h[0] * x) + (h[1] * y) + h[2]) / w, ((h[3] * x) + (h[4] * y) + h[5]) / w);
    }

    private static void SetMatrix(Span<double> h, double a, double b, double tx, double ty)
    {
        (h[0], h[1], h[2]) = (a, -b, tx);
        (h[3], h[4], h[5]) = (b, a, ty);
        (h[6], h[7], h[8]) = (0, 0, 1);
    }

    private static void HomographyJacobian(ReadOnlySpan<double> p, double x, double y, Span<double> ju, Span<double> jv)
    {
        double w = (p[6] * x) + (p[7] * y) + 1;
        double mappedX = (((1 + p[0]) * x) + (p[1] * y) + p[2]) / w;
        double mappedY = ((p[3] * x) + ((1 + p[4]) * y) + p[5]) / w;
        ju[..8].Clear();
        jv[..8].Clear();
        (ju[0], ju[1], ju[2]) = (x / w, y / w, 1 / w);
        (jv[3], jv[4], jv[5]) = (x / w, y / w, 1 / w);
        (ju[6], ju[7]) = (-mappedX * x / w, -mappedX * y / w);
        (jv[6], jv[7]) = (-mappedY * x / w, -mappedY * y / w);
    }
}
