using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Numerics.Abel;

/// <summary>Penalised least squares |A a - d|^2 + s a^T P a for any strength s, by one eigenvalue decomposition.</summary>
/// <remarks>With P = L L^T and L^-1 A^T A L^-T = V diag(b) V^T the solution is a = L^-T V diag(1 / (b + s)) V^T L^-1 A^T d.</remarks>
internal sealed class SmoothingFilter
{
    private readonly Vector<double> eigenvalue;
    private readonly Vector<double> projected;
    private readonly double dataSquares;

    /// <param name="design">Scaled design A, data * coefficients.</param>
    /// <param name="data">Scaled data d.</param>
    /// <param name="penalty">P, positive definite.</param>
    public SmoothingFilter(Matrix<double> design, Vector<double> data, Matrix<double> penalty)
    {
        Matrix<double> inverse = penalty.Cholesky().Factor.Inverse();
        Matrix<double> reduced = inverse * design.TransposeThisAndMultiply(design) * inverse.Transpose();
        MathNet.Numerics.LinearAlgebra.Factorization.Evd<double> decomposition = ((reduced + reduced.Transpose()) / 2).Evd(Symmetricity.Symmetric);
        eigenvalue = decomposition.EigenValues.Real().PointwiseMaximum(0);
        Basis = inverse.TransposeThisAndMultiply(decomposition.EigenVectors);
        projected = Basis.TransposeThisAndMultiply(design.TransposeThisAndMultiply(data));
        dataSquares = data * data;
        Count = data.Count;
    }

    public int Count { get; }

    /// <summary>L^-T V.</summary>
    public Matrix<double> Basis { get; }

    public double LargestEigenvalue => eigenvalue.Maximum();

    public Vector<double> Inverse(double strength) => eigenvalue.Map(b => 1 / (b + strength), Zeros.Include);

    public double EffectiveParameters(double strength) => eigenvalue.Map(b => b / (b + strength), Zeros.Include).Sum();

    public double ResidualSquares(double strength)
    {
        double sum = dataSquares;
        for (int i = 0; i < eigenvalue.Count; i++)
        {
            double z = projected[i], denominator = eigenvalue[i] + strength;
            sum += z * z * ((eigenvalue[i] / denominator) - 2) / denominator;
        }

        return Math.Max(sum, 0);
    }

    /// <summary>Smallest value of |A a - d|^2 + s a^T P a.</summary>
    public double PenalisedSquares(double strength) =>
        Math.Max(dataSquares - (projected.PointwiseMultiply(projected) * Inverse(strength)), double.Epsilon);

    /// <summary>Logarithm of the determinant of I - (map from data to fitted data).</summary>
    public double LogDeterminant(double strength) => eigenvalue.Map(b => Math.Log(strength / (b + strength)), Zeros.Include).Sum();
}
