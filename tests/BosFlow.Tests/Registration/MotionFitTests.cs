using BosFlow.Registration;
using CsCheck;

namespace BosFlow.Tests.Registration;

public sealed class MotionFitTests
{
    private const double Width = 1280;
    private const double Height = 720;

    public static TheoryData<MotionModel> Models => [MotionModel.Shift, MotionModel.Rigid, MotionModel.Similarity, MotionModel.Homography];

    [Theory]
    [MemberData(nameof(Models))]
    public void Fit_ExactVectors_ReturnsTheMotion(MotionModel model)
    {
        PlanarMotion truth = KnownMotions.Of(model);

        MotionFitResult fit = VectorCloud.Of(truth, 40, 22, 32).Fit(model);

        Assert.Null(fit.Failure);
        // Rounding: coordinates of 1e3 px, 1e-16 relative, condition of the scaled normal equations below 1e4.
        Assert.InRange(VectorCloud.Distance(truth, fit.Motion, Width, Height), 0, 1e-8);
        Assert.InRange(fit.ResidualRmsU, 0, 1e-9);
        Assert.Equal(880, fit.InlierCount);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Fit_FortyPercentOfTheWidthDisturbed_StaysWithTheBackground(MotionModel model)
    {
        PlanarMotion truth = KnownMotions.Of(model);
        VectorCloud cloud = VectorCloud.Of(truth, 40, 22, 32).WithNoise(0.01, new Random(11)).WithPlume(2, 0.4);

        MotionFitResult fit = cloud.Fit(model);

        // Without the plume the fit's own uncertainty at a corner is 0.001 px (shift) to 0.004 px (homography); vectors at the
        // plume's edges are disturbed by less than the noise and cannot be told apart, which the tolerance allows for.
        Assert.InRange(VectorCloud.Distance(truth, fit.Motion, Width, Height), 0, 0.01);
        Assert.InRange(fit.ResidualRmsU, 0.0092, 0.0108);
        Assert.InRange(fit.ResidualRmsV, 0.0092, 0.0108);
        Assert.InRange(fit.OutlierShare, 0.33, 0.41);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Fit_FortyPercentWildVectors_IgnoresThem(MotionModel model)
    {
        PlanarMotion truth = KnownMotions.Of(model);
        VectorCloud cloud = VectorCloud.Of(truth, 20, 11, 64).WithNoise(0.01, new Random(12));
        var random = new Random(13);
        for (int i = 0; i < cloud.Count; i++)
        {
            if (i % 5 < 2)
                (cloud.U[i], cloud.V[i]) = (random.NextDouble() * 60, random.NextDouble() * -60);
        }

        MotionFitResult fit = cloud.Fit(model);

        Assert.InRange(VectorCloud.Distance(truth, fit.Motion, Width, Height), 0, 0.015);
        Assert.InRange(fit.InlierCount, 130, 132);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Fit_ManyNoisyTrials_BiasIsNoneAndSpreadMatchesUncertainty(MotionModel model)
    {
        const int Trials = 150;
        PlanarMotion truth = KnownMotions.Of(model);
        var random = new Random(14);
        double sum = 0;
        double normalisedSquare = 0;
        double sigmaSum = 0;
        for (int trial = 0; trial < Trials; trial++)
        {
            MotionFitResult fit = VectorCloud.Of(truth, 12, 8, 90).WithNoise(0.02, random).Fit(model);
            (double u, double v) = fit.Motion.DisplacementAt(200, 650);
            (double trueU, double trueV) = truth.DisplacementAt(200, 650);
            Assert.NotNull(fit.Uncertainty);
            (double sigmaU, double sigmaV) = fit.Uncertainty.At(200, 650);
            sum += u - trueU;
            sigmaSum += sigmaU;
            normalisedSquare += (((u - trueU) * (u - trueU) / (sigmaU * sigmaU)) + ((v - trueV) * (v - trueV) / (sigmaV * sigmaV))) / 2;
        }

        Assert.InRange(Math.Abs(sum / Trials), 0, 3 * sigmaSum / Trials / Math.Sqrt(Trials));
        // Mean of 300 squares of unit normals: 1 +- 3 sqrt(2 / 300) = 1 +- 0.24; the scale from 96 vectors scatters by 5 % more.
        Assert.InRange(normalisedSquare / Trials, 0.76, 1.3);
    }

    [Fact]
    public void Fit_GaussianNoise_LosesLittleAgainstLeastSquaresOfMathNet()
    {
        const int Trials = 200;
        PlanarMotion truth = KnownMotions.Of(MotionModel.Similarity);
        var random = new Random(15);
        double robustSquare = 0;
        double leastSquare = 0;
        for (int trial = 0; trial < Trials; trial++)
        {
            VectorCloud cloud = VectorCloud.Of(truth, 12, 8, 90).WithNoise(0.02, random);
            (double trueU, _) = truth.DisplacementAt(0, 0);
            robustSquare += Math.Pow(cloud.Fit(MotionModel.Similarity).Motion.DisplacementAt(0, 0).U - trueU, 2);
            leastSquare += Math.Pow(LeastSquaresSimilarity(cloud).DisplacementAt(0, 0).U - trueU, 2);
        }

        // 1 / 0.945 = 1.06 expected, the two errors being strongly correlated.
        Assert.InRange(robustSquare / leastSquare, 0.97, 1.16);
    }

    [Fact]
    public void Fit_FourVectorsOfEqualDistance_IsTheirMean()
    {
        // By hand: mean (1, 2); every residual component is +-0.1; divisor n - p/2 = 4 - 1, so RMS = 0.1 sqrt(4 / 3).
        MotionFitResult fit = MotionFit.Fit(
            MotionModel.Shift, [0, 10, 0, 10], [0, 0, 10, 10], [1.1, 0.9, 1.1, 0.9], [2.1, 2.1, 1.9, 1.9], []);

        // Reweighting stops at a millionth of the scale.
        Assert.Equal(1, fit.Motion.Planar.H13, 1e-6);
        Assert.Equal(2, fit.Motion.Planar.H23, 1e-6);
        Assert.Equal(0.1 * Math.Sqrt(4.0 / 3), fit.ResidualRmsU, 1e-6);
        Assert.Equal(0.1 * Math.Sqrt(4.0 / 3), fit.ResidualRmsV, 1e-6);
        Assert.Equal(4, fit.InlierCount);
    }

    [Fact]
    public void Fit_MovedOrigin_GivesTheSameDisplacements()
    {
        (from shift in Gen.Double[-5000, 5000]
         from seed in Gen.Int[0, 1000]
         select (shift, seed)).Sample(
            sample =>
            {
                VectorCloud cloud = VectorCloud.Of(KnownMotions.Of(MotionModel.Rigid), 8, 6, 100).WithNoise(0.05, new Random(sample.seed));
                MotionFitResult here = cloud.Fit(MotionModel.Homography);
                double[] movedX = [.. cloud.X.Select(x => x + sample.shift)];
                double[] movedY = [.. cloud.Y.Select(y => y - sample.shift)];
                MotionFitResult there = MotionFit.Fit(MotionModel.Homography, movedX, movedY, cloud.U, cloud.V, []);
                (double u, double v) = here.Motion.DisplacementAt(321, 234);
                (double movedU, double movedV) = there.Motion.DisplacementAt(321 + sample.shift, 234 - sample.shift);
                return Math.Abs(u - movedU) < 1e-6 && Math.Abs(v - movedV) < 1e-6;
            },
            iter: 20,
            threads: 1);
    }

    [Fact]
    public void Fit_SameInputTwice_GivesTheSameBits()
    {
        VectorCloud cloud = VectorCloud.Of(KnownMotions.Of(MotionModel.Homography), 60, 40, 20).WithNoise(0.05, new Random(3)).WithPlume(1, 0.3);

        Assert.Equal(cloud.Fit(MotionModel.Homography).Motion, cloud.Fit(MotionModel.Homography).Motion);
    }

    [Fact]
    public void Fit_WeightsOfZeroAndNaN_LeaveVectorsOut()
    {
        VectorCloud cloud = VectorCloud.Of(PlanarMotion.Shift(1, 2), 5, 4, 10);
        double[] weights = new double[cloud.Count];
        Array.Fill(weights, 3.0);
        for (int i = 0; i < 12; i++)
            (cloud.U[i], weights[i]) = (9, 0);
        cloud.V[12] = double.NaN;

        MotionFitResult fit = MotionFit.Fit(MotionModel.Shift, cloud.X, cloud.Y, cloud.U, cloud.V, weights);

        Assert.Equal(7, fit.VectorCount);
        Assert.Equal(7, fit.InlierCount);
        Assert.Equal(1, fit.Motion.Planar.H13, 10);
    }

    [Fact]
    public void Fit_ModelNone_ReportsTheVectorsThemselves()
    {
        MotionFitResult fit = MotionFit.Fit(MotionModel.None, [0, 1], [0, 1], [3, 4], [0, 0], []);

        Assert.Equal(PlanarMotion.Identity, fit.Motion);
        Assert.Equal(Math.Sqrt(12.5), fit.ResidualRmsU, 12);
        Assert.Null(fit.Uncertainty);
    }

    [Theory]
    [InlineData(MotionModel.Shift, 2)]
    [InlineData(MotionModel.Rigid, 3)]
    [InlineData(MotionModel.Homography, 7)]
    public void Fit_TooFewVectors_SaysHowManyAreNeeded(MotionModel model, int count)
    {
        double[] x = [.. Enumerable.Range(0, count).Select(i => i * 10.0)];
        double[] y = [.. Enumerable.Range(0, count).Select(i => i * i * 3.0)];

        MotionFitResult fit = MotionFit.Fit(model, x, y, x, y, []);

        Assert.Contains("needs at least", fit.Failure, StringComparison.Ordinal);
        Assert.Equal(PlanarMotion.Identity, fit.Motion);
        Assert.True(double.IsNaN(fit.ResidualRmsU));
    }

    [Fact]
    public void Fit_HomographyOfPointsOnALine_SaysThatTheyDoNotDetermineIt()
    {
        double[] x = [.. Enumerable.Range(0, 30).Select(i => i * 10.0)];
        double[] y = [.. x.Select(value => (2 * value) + 5)];
        double[] zero = new double[30];

        Assert.Contains("one line", MotionFit.Fit(MotionModel.Homography, x, y, zero, zero, []).Failure, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_SimilarityOfCoincidentPoints_SaysThatTheyDoNotDetermineIt()
    {
        double[] same = [5, 5, 5, 5, 5];

        Assert.Contains("too close", MotionFit.Fit(MotionModel.Similarity, same, same, same, same, []).Failure, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_LengthsDiffer_Throws() =>
        Assert.Throws<ArgumentException>(() => MotionFit.Fit(MotionModel.Shift, [1, 2], [1], [1, 2], [1, 2], []));

    private static PlanarMotion LeastSquaresSimilarity(VectorCloud cloud)
    {
        double[][] rows = new double[2 * cloud.Count][];
        double[] right = new double[2 * cloud.Count];
        for (int i = 0; i < cloud.Count; i++)
        {
            rows[2 * i] = [cloud.X[i], -cloud.Y[i], 1, 0];
            rows[(2 * i) + 1] = [cloud.Y[i], cloud.X[i], 0, 1];
            right[2 * i] = cloud.X[i] + cloud.U[i];
            right[(2 * i) + 1] = cloud.Y[i] + cloud.V[i];
        }

        double[] p = MathNet.Numerics.LinearRegression.MultipleRegression.QR(rows, right);
        return new PlanarMotion(p[0], -p[1], p[2], p[1], p[0], p[3], 0, 0);
    }
}
