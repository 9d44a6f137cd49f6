using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Camera;

/// <summary>The numbers that a camera before a stretched plane is fitted by, with what is known of them beforehand.</summary>
/// <remarks>
/// 0 log of the focal length over the picture's longer side, 1 and 2 centre of the lens (px), 3 radial term, 4 to 6 rotation, 7 and 8 place of the
/// plane's origin in the picture over the focal length, 9 log of focal length over its distance (log px/m), 10 log of the printer's stretch x over y,
/// 11 growth of the squares' edges (m). Expectations are common practice, no source: lenses from wide to long (a factor of 2.5 about 1.2 picture
/// lengths, one sigma), a lens centred within 1 % of the longer side, a radial term of up to 5 % (one sigma) at half of it,
/// and ink that runs by less than 1 mm (one sigma), so that points without an outward side leave the fit determined.
/// </remarks>
internal sealed class PlaneParameters
{
    public const int Count = 12;
    public const int Ratio = 10;
    public const int Growth = 11;
    public const int FirstTilt = 4;

    private const double UsualFocal = 1.2;
    private const double FocalFactor = 2.5;
    private const double CentreShare = 0.01;
    private const double UsualRadial = 0.05;
    private const double LargestGrowth = 1e-3;
    private const double Step = 1e-6;

    // So far away that no perspective is left.
    private const double ScanFocal = 1e6;

    private readonly double width;
    private readonly double height;
    private readonly double originX;
    private readonly double originY;

    public PlaneParameters(PlaneModel model, int width, int height, double originX, double originY)
    {
        this.width = width;
        this.height = height;
        this.originX = originX;
        this.originY = originY;
        LongerSide = Math.Max(width, height);
        Free = model == PlaneModel.Photo ? [.. Enumerable.Range(0, Count)] : [6, 7, 8, 9, Ratio, Growth];
        // In a scan, places are counted in px: a focal length of a million picture lengths makes angles of them.
        StandardFocal = model == PlaneModel.Photo ? UsualFocal : ScanFocal;
    }

    public double LongerSide { get; }

    /// <summary>Which parameters are fitted.</summary>
    public int[] Free { get; }

    public double StandardFocal { get; }

    /// <summary>Expected value and its sigma; an infinite sigma where nothing is expected.</summary>
    public (double Value, double Sigma) Expected(int parameter) => parameter switch
    {
        0 => (Math.Log(StandardFocal), Math.Log(FocalFactor)),
        1 or 2 => (0, CentreShare * LongerSide),
        3 => (0, UsualRadial),
        Growth => (0, LargestGrowth),
        _ => (0, double.PositiveInfinity),
    };

    /// <summary>A step for slopes: it moves a point by about a thousandth of a pixel whatever the parameter's unit.</summary>
    public double StepOf(int parameter) => parameter switch
    {
        1 or 2 => 1e-3,
        7 or 8 => Step / StandardFocal,
        Growth => 1e-7,
        _ => Step,
    };

    public PlaneCamera ToCamera(double[] p)
    {
        double focal = LongerSide * Math.Exp(p[0]);
        double distance = focal / Math.Exp(p[9]);
        return new PlaneCamera
        {
            FocalPixels = focal,
            CentreX = ((width - 1) / 2) + p[1],
            CentreY = ((height - 1) / 2) + p[2],
            Radial = p[3],
            Radius = LongerSide / 2,
            Rotation = (p[4], p[5], p[6]),
            Origin = (originX, originY),
            Position = (p[7] * distance, p[8] * distance, distance),
            PrintScaleX = Math.Exp(p[Ratio] / 2),
            PrintScaleY = Math.Exp(-p[Ratio] / 2),
        };
    }

    /// <summary>A start for a supposed focal length, from the projective map of the points counted from the origin.</summary>
    /// <param name="map">3 x 3, m to px from the picture's middle.</param>
    /// <param name="focalShare">Focal length over the longer side.</param>
    public double[] Start(Matrix<double> map, double focalShare)
    {
        double focal = LongerSide * focalShare;
        Matrix<double> m = Matrix<double>.Build.DenseOfDiagonalArray([1 / focal, 1 / focal, 1]) * map;
        double norm = Math.Sqrt(m.Column(0).L2Norm() * m.Column(1).L2Norm());
        m = m.Divide(norm);
        Vector<double> first = m.Column(0);
        Vector<double> second = m.Column(1);
        Vector<double> normal = Vector<double>.Build.DenseOfArray(
            [(first[1] * second[2]) - (first[2] * second[1]), (first[2] * second[0]) - (first[0] * second[2]), (first[0] * second[1]) - (first[1] * second[0])]);
        MathNet.Numerics.LinearAlgebra.Factorization.Svd<double> svd = Matrix<double>.Build.DenseOfColumnVectors(first, second, normal).Svd();
        Matrix<double> r = svd.U * svd.VT;
        (double x, double y, double z) = AxisAngle(r);
        double[] p = new double[Count];
        (p[0], p[4], p[5], p[6]) = (Math.Log(focalShare), x, y, z);
        (p[7], p[8], p[9]) = (m[0, 2] / m[2, 2], m[1, 2] / m[2, 2], Math.Log(focal / m[2, 2]));
        return p;
    }

    private static (double X, double Y, double Z) AxisAngle(Matrix<double> r)
    {
        double cosine = Math.Clamp((r[0, 0] + r[1, 1] + r[2, 2] - 1) / 2, -1, 1);
        double angle = Math.Acos(cosine);
        (double x, double y, double z) = (r[2, 1] - r[1, 2], r[0, 2] - r[2, 0], r[1, 0] - r[0, 1]);
        double length = Math.Sqrt((x * x) + (y * y) + (z * z));
        if (length > 1e-6)
            return (x * angle / length, y * angle / length, z * angle / length);
        // A half turn: the axis is the column of R + 1 that is longest.
        if (cosine < 0)
        {
            Matrix<double> sum = r + Matrix<double>.Build.DenseIdentity(3);
            Vector<double> axis = Enumerable.Range(0, 3).Select(sum.Column).MaxBy(column => column.L2Norm())!.Normalize(2);
            return (axis[0] * Math.PI, axis[1] * Math.PI, axis[2] * Math.PI);
        }

        return (0, 0, 0);
    }
}
