namespace BosFlow.Registration;

/// <summary>What a fitted motion leaves of the vectors, and the uncertainty that follows for the motion.</summary>
internal static class MotionResidual
{
    /// <summary>Residuals and covariance of a robust fit.</summary>
    /// <remarks>
    /// Covariance of an M-estimator, s^2 A^-1 B A^-1 with A = sum (w + r w' / 2) J^T J and B = sum (w r / s)^2 / 2 J^T J
    /// (Huber 1981, Robust Statistics, chapter 7; from memory; the two-component form derived here from isotropic errors).
    /// </remarks>
    public static MotionFitResult Of(MotionParameters parameters, MotionVectors vectors, double[] p, double scale, double tuning, double inlierLimit)
    {
        double[] h = new double[9];
        parameters.Matrix(p, h);
        double[] squares = new double[vectors.Count];
        vectors.SquaredResiduals(h, squares);
        double limit = inlierLimit * scale;
        (double rmsU, double rmsV, int inliers) = Rms(vectors, h, squares, limit * limit, parameters.Count);
        return new MotionFitResult
        {
            Motion = vectors.Scaling.ToPixels(h),
            ResidualRmsU = rmsU,
            ResidualRmsV = rmsV,
            VectorCount = vectors.Count,
            InlierCount = inliers,
            Uncertainty = Uncertainty(parameters, vectors, p, squares, scale, tuning),
        };
    }

    /// <summary>The vectors themselves as residuals.</summary>
    public static MotionFitResult OfIdentity(MotionVectors vectors)
    {
        double[] identity = [1, 0, 0, 0, 1, 0, 0, 0, 1];
        double[] squares = new double[vectors.Count];
        vectors.SquaredResiduals(identity, squares);
        (double rmsU, double rmsV, int inliers) = Rms(vectors, identity, squares, double.PositiveInfinity, 0);
        return new MotionFitResult
        {
            Motion = PlanarMotion.Identity,
            ResidualRmsU = rmsU,
            ResidualRmsV = rmsV,
            VectorCount = vectors.Count,
            InlierCount = inliers,
        };
    }

    /// <summary>Tukey's biweight for every squared residual; 0 from the cut on.</summary>
    public static void TukeyFactors(ReadOnlySpan<double> squares, double cut, Span<double> factors)
    {
        for (int i = 0; i < squares.Length; i++)
        {
            double t = squares[i] / (cut * cut);
            factors[i] = t < 1 ? (1 - t) * (1 - t) : 0;
        }
    }

    private static (double RmsU, double RmsV, int Inliers) Rms(
        MotionVectors vectors, double[] h, ReadOnlySpan<double> squares, double limit, int parameterCount)
    {
        double sumU = 0;
        double sumV = 0;
        int inliers = 0;
        for (int i = 0; i < vectors.Count; i++)
        {
            if (!(squares[i] <= limit))
                continue;
            (double mappedX, double mappedY) = MotionParameters.Map(h, vectors.X[i], vectors.Y[i]);
            double ru = vectors.TargetX[i] - mappedX;
            double rv = vectors.TargetY[i] - mappedY;
            sumU += ru * ru;
            sumV += rv * rv;
            inliers++;
        }

        double freedom = inliers - (parameterCount / 2.0);
        if (!(freedom > 0))
            return (double.NaN, double.NaN, inliers);
        double scale = vectors.Scaling.Scale;
        return (scale * Math.Sqrt(sumU / freedom), scale * Math.Sqrt(sumV / freedom), inliers);
    }

    private static MotionUncertainty? Uncertainty(
        MotionParameters parameters, MotionVectors vectors, double[] p, ReadOnlySpan<double> squares, double scale, double tuning)
    {
        int n = parameters.Count;
        double[] slope = new double[vectors.Count];
        double[] spread = new double[vectors.Count];
        for (int i = 0; i < vectors.Count; i++)
        {
            double rho = squares[i] / (scale * scale);
            double t = rho / (tuning * tuning);
            double w = t < 1 ? (1 - t) * (1 - t) : 0;
            slope[i] = t < 1 ? w - (2 * t * (1 - t)) : 0;
            spread[i] = w * w * rho / 2;
        }

        double[] a = new double[n * n];
        double[] b = new double[n * n];
        MotionLeastSquares.Information(parameters, vectors, slope, p, a);
        MotionLeastSquares.Information(parameters, vectors, spread, p, b);
        if (!SmallCholesky.Factor(a, n))
            return null;
        double[] inverse = SmallCholesky.Inverse(a, n);
        double[] covariance = Multiply(Multiply(inverse, b, n), inverse, n);
        for (int i = 0; i < covariance.Length; i++)
            covariance[i] *= scale * scale;
        return new MotionUncertainty(parameters, vectors.Scaling, p, covariance);
    }

    private static double[] Multiply(double[] a, double[] b, int n)
    {
        double[] product = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double sum = 0;
                for (int k = 0; k < n; k++)
                    sum += a[(i * n) + k] * b[(k * n) + j];
                product[(i * n) + j] = sum;
            }
        }

        return product;
    }
}
