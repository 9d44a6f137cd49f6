using BosFlow.Camera;
using OpenCvSharp;

namespace BosFlow.Media.Calibration;

/// <summary>Finds a lens from pictures of a plane target.</summary>
/// <remarks>
/// Estimation by OpenCV's least squares (Z. Zhang 2000 for the start). A picture whose points miss far more than those of the others is left
/// out and the fit repeated: one wrong detection spoils all numbers without any complaint.
/// </remarks>
public static class LensCalibrator
{
    /// <summary>Fewest pictures that determine a lens.</summary>
    public const int FewestViews = 3;

    private const double OutlierRatio = 4;
    private const double OutlierPixels = 0.3;

    /// <summary>Calibrates.</summary>
    /// <param name="views">What was found of the target, one a picture.</param>
    /// <param name="kind">Family of the lens.</param>
    /// <param name="width">Width of the pictures, px.</param>
    /// <param name="height">Height of the pictures, px.</param>
    /// <param name="cancellationToken">Stops between two fits.</param>
    /// <exception cref="InputDataException">Too few pictures, or they do not fit together.</exception>
    public static LensCalibration Calibrate(IReadOnlyList<TargetView> views, LensKind kind, int width, int height, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(views);
        QuietOpenCv.Ensure();
        List<TargetView> kept = [.. views];
        var rejected = new List<(string, string)>();
        while (true)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (kept.Count < FewestViews)
                throw new InputDataException(FormattableString.Invariant($"The target was found and fits together in {kept.Count} pictures only; a lens needs at least {FewestViews}, better 12 or more: take more, sharp, evenly lit, the whole target in sight, and check the numbers of its rows and columns."));
            (LensParameters lens, CalibratedView[] fitted) = Fit(kept, kind, width, height);
            CalibratedView worst = fitted.MaxBy(view => view.Rms)!;
            double usual = fitted.Select(view => view.Rms).Order().ElementAt((fitted.Length - 1) / 2);
            if (!(worst.Rms > Math.Max(OutlierPixels, OutlierRatio * usual)))
            {
                return new LensCalibration
                {
                    Lens = lens,
                    StandardUncertainty = LensUncertainty.Of(lens, fitted),
                    Views = fitted,
                    Rejected = rejected,
                };
            }

            rejected.Add((worst.View.Source, FormattableString.Invariant($"its points miss by {worst.Rms:0.00} px RMS where those of the others miss by {usual:0.00} px: blurred, bent, or found wrongly")));
            kept.Remove(worst.View);
        }
    }

    private static (LensParameters Lens, CalibratedView[] Views) Fit(List<TargetView> views, LensKind kind, int width, int height)
    {
        var disposables = new List<Mat>();
        Mat Keep(Mat mat)
        {
            disposables.Add(mat);
            return mat;
        }

        try
        {
            Mat[] objects = [.. views.Select(view => Keep(Mat.FromPixelData(view.Points.Count, 1, kind == LensKind.Fisheye ? MatType.CV_64FC3 : MatType.CV_32FC3, ObjectPoints(view, kind))))];
            Mat[] seen = [.. views.Select(view => Keep(Mat.FromPixelData(view.Points.Count, 1, kind == LensKind.Fisheye ? MatType.CV_64FC2 : MatType.CV_32FC2, ImagePoints(view, kind))))];
            using var camera = new Mat();
            using var terms = new Mat();
            Mat[] rotations;
            Mat[] positions;
            if (kind == LensKind.Fisheye)
            {
                IEnumerable<Mat> r;
                IEnumerable<Mat> t;
                Cv2.FishEye.Calibrate(objects, seen, new Size(width, height), camera, terms, out r, out t,
                    FishEyeCalibrationFlags.RecomputeExtrinsic | FishEyeCalibrationFlags.FixSkew, new TermCriteria(CriteriaTypes.Count | CriteriaTypes.Eps, 200, 1e-12));
                (rotations, positions) = ([.. r], [.. t]);
            }
            else
            {
                Cv2.CalibrateCamera(objects, seen, new Size(width, height), camera, terms, out rotations, out positions,
                    CalibrationFlags.None, new TermCriteria(CriteriaTypes.Count | CriteriaTypes.Eps, 200, 1e-12));
            }

            foreach (Mat mat in rotations.Concat(positions))
                Keep(mat);
            LensParameters lens = Read(camera, terms, kind, width, height);
            var model = new LensModel(lens);
            CalibratedView[] fitted = [.. views.Select((view, i) => CalibratedView.Of(view, new TargetPose(Triple(rotations[i]), Triple(positions[i])), model))];
            return fitted.All(view => double.IsFinite(view.Rms)) ? (lens, fitted) : throw new ArgumentException("The polynomial of the lens turns back among the points.", nameof(views));
        }
        catch (Exception exception) when (exception is OpenCVException or ArgumentException)
        {
            throw new InputDataException("The pictures do not fit together with any lens of this model: check the numbers of rows and columns and the size of the squares, leave out pictures with the target far out of focus or hardly tilted, or try the other --model.", exception);
        }
        finally
        {
            disposables.ForEach(mat => mat.Dispose());
        }
    }

    private static Array ObjectPoints(TargetView view, LensKind kind) => kind == LensKind.Fisheye
        ? view.Points.SelectMany(point => new[] { point.X, point.Y, 0 }).ToArray()
        : view.Points.SelectMany(point => new[] { (float)point.X, (float)point.Y, 0f }).ToArray();

    private static Array ImagePoints(TargetView view, LensKind kind) => kind == LensKind.Fisheye
        ? view.Points.SelectMany(point => new[] { point.Column, point.Row }).ToArray()
        : view.Points.SelectMany(point => new[] { (float)point.Column, (float)point.Row }).ToArray();

    private static LensParameters Read(Mat camera, Mat terms, LensKind kind, int width, int height)
    {
        double[] found = Values(terms);
        double Term(int i) => i < found.Length ? found[i] : 0;
        var lens = new LensParameters
        {
            Kind = kind,
            Width = width,
            Height = height,
            FocalX = camera.At<double>(0, 0),
            FocalY = camera.At<double>(1, 1),
            CentreX = camera.At<double>(0, 2),
            CentreY = camera.At<double>(1, 2),
            Radial1 = Term(0),
            Radial2 = Term(1),
        };
        return kind == LensKind.Fisheye
            ? lens with { Radial3 = Term(2), Radial4 = Term(3) }
            : lens with { Tangential1 = Term(2), Tangential2 = Term(3), Radial3 = Term(4) };
    }

    private static (double X, double Y, double Z) Triple(Mat mat) => Values(mat) is [double x, double y, double z] ? (x, y, z) : throw new ArgumentException("A pose needs three numbers.", nameof(mat));

    // All numbers, whether they lie in a row, a column or the channels of one element.
    private static double[] Values(Mat mat)
    {
        using Mat line = mat.Reshape(1, 1);
        line.GetArray(out double[] values);
        return values;
    }
}
