using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Camera;

/// <summary>Standard uncertainties of the numbers of a lens, from how far the points miss.</summary>
/// <remarks>
/// The covariance of least squares, s^2 (J^T J)^-1 with s^2 the sum of squares over the degrees of freedom, of lens and poses together; the
/// poses are eliminated picture by picture (Schur's complement), so that the work grows with the number of pictures only. It holds for points that miss
/// independently; what all pictures share, such as a target that is not flat, is not in it.
/// </remarks>
public static class LensUncertainty
{
    private const int PoseNumbers = 6;
    private const double Step = 1e-6;

    /// <summary>The standard uncertainties.</summary>
    /// <param name="lens">The lens as fitted.</param>
    /// <param name="views">The pictures with their poses.</param>
    /// <returns>Each number replaced by its standard uncertainty; 0 for those that the family does not have.</returns>
    public static LensParameters Of(LensParameters lens, IReadOnlyList<CalibratedView> views)
    {
        ArgumentNullException.ThrowIfNull(lens);
        ArgumentNullException.ThrowIfNull(views);
        double[] numbers = Numbers(lens);
        Matrix<double> reduced = Matrix<double>.Build.Dense(numbers.Length, numbers.Length);
        double squares = 0;
        int equations = 0;
        foreach (CalibratedView view in views)
        {
            Matrix<double> a = LensJacobian(lens, numbers, view);
            Matrix<double> b = PoseJacobian(new LensModel(lens), view);
            Matrix<double> across = a.TransposeThisAndMultiply(b);
            reduced += a.TransposeThisAndMultiply(a) - (across * b.TransposeThisAndMultiply(b).PseudoInverse() * across.Transpose());
            squares += view.Misses.Sum(miss => (miss.X * miss.X) + (miss.Y * miss.Y));
            equations += 2 * view.Misses.Count;
        }

        double variance = squares / Math.Max(1, equations - numbers.Length - (PoseNumbers * views.Count));
        Matrix<double> covariance = reduced.Inverse() * variance;
        return With(lens, [.. Enumerable.Range(0, numbers.Length).Select(i => Math.Sqrt(Math.Max(0, covariance[i, i])))], uncertainty: true);
    }

    private static Matrix<double> LensJacobian(LensParameters lens, double[] numbers, CalibratedView view) =>
        Derivatives(numbers.Length, view, (i, sign) =>
        {
            double[] moved = [.. numbers];
            moved[i] += sign * StepOf(i);
            var model = new LensModel(With(lens, moved, uncertainty: false));
            return (model, view.Pose, StepOf(i));
        });

    private static Matrix<double> PoseJacobian(LensModel model, CalibratedView view) =>
        Derivatives(PoseNumbers, view, (i, sign) =>
        {
            double[] p = [view.Pose.Rotation.X, view.Pose.Rotation.Y, view.Pose.Rotation.Z, view.Pose.Position.X, view.Pose.Position.Y, view.Pose.Position.Z];
            double step = i < 3 ? Step : Step * view.Pose.Position.Z;
            p[i] += sign * step;
            return (model, new TargetPose((p[0], p[1], p[2]), (p[3], p[4], p[5])), step);
        });

    private static Matrix<double> Derivatives(int count, CalibratedView view, Func<int, int, (LensModel Lens, TargetPose Pose, double Step)> moved)
    {
        Matrix<double> jacobian = Matrix<double>.Build.Dense(2 * view.View.Points.Count, count);
        for (int i = 0; i < count; i++)
        {
            (LensModel above, TargetPose poseAbove, double step) = moved(i, 1);
            (LensModel below, TargetPose poseBelow, _) = moved(i, -1);
            for (int k = 0; k < view.View.Points.Count; k++)
            {
                TargetPoint point = view.View.Points[k];
                (double column, double row) = poseAbove.Seen(above, point.X, point.Y);
                (double columnBelow, double rowBelow) = poseBelow.Seen(below, point.X, point.Y);
                jacobian[2 * k, i] = (column - columnBelow) / (2 * step);
                jacobian[(2 * k) + 1, i] = (row - rowBelow) / (2 * step);
            }
        }

        return jacobian;
    }

    // Pixels for the first four numbers, the rest have no unit.
    private static double StepOf(int number) => number < 4 ? 1e-3 : Step;

    private static double[] Numbers(LensParameters p) => p.Kind == LensKind.Fisheye
        ? [p.FocalX, p.FocalY, p.CentreX, p.CentreY, p.Radial1, p.Radial2, p.Radial3, p.Radial4]
        : [p.FocalX, p.FocalY, p.CentreX, p.CentreY, p.Radial1, p.Radial2, p.Radial3, p.Tangential1, p.Tangential2];

    private static LensParameters With(LensParameters lens, double[] n, bool uncertainty)
    {
        LensParameters moved = lens with { FocalX = n[0], FocalY = n[1], CentreX = n[2], CentreY = n[3], Radial1 = n[4], Radial2 = n[5], Radial3 = n[6] };
        return lens.Kind == LensKind.Fisheye
            ? moved with { Radial4 = n[7], Tangential1 = uncertainty ? 0 : lens.Tangential1, Tangential2 = uncertainty ? 0 : lens.Tangential2 }
            : moved with { Tangential1 = n[7], Tangential2 = n[8], Radial4 = uncertainty ? 0 : lens.Radial4 };
    }
}
