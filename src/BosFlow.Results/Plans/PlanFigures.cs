using System.Globalization;
using BosFlow.Results.Report;

namespace BosFlow.Results.Plans;

/// <summary>Numbers and lines of a plan's sheet.</summary>
internal static class PlanFigures
{
    /// <summary>Three significant digits; infinity in words.</summary>
    public static string Text(double value) => double.IsInfinity(value) ? "infinity" : Figures.Text(value);

    public static PlanLine Line(string name, double value, string unit, string remark = "") => new(name, Text(value), unit, remark);

    /// <summary>A value that may not be known, with what to give where it is not.</summary>
    public static PlanLine Known(string name, double? value, string unit, string remark, string missing) =>
        value is double known ? Line(name, known, unit, remark) : new PlanLine(name, string.Empty, string.Empty, missing);

    public static PlanLine Millimetres(string name, double metres, string remark = "") => Line(name, metres * 1e3, "mm", remark);

    /// <summary>Width and height.</summary>
    public static PlanLine Area(string name, (double Width, double Height) metres, string remark = "") =>
        new(name, $"{Text(metres.Width * 1e3)} x {Text(metres.Height * 1e3)}", "mm", remark);

    /// <summary>A length on the sensor, in µm and px.</summary>
    public static PlanLine OnSensor(string name, double metres, double pitch, string remark = "") =>
        Line(name, metres * 1e6, "µm", $"{Text(metres / pitch)} px{(remark.Length > 0 ? "; " + remark : string.Empty)}");

    /// <summary>A number as it was given, such as an f-number.</summary>
    public static string Given(double value) => value.ToString("G6", CultureInfo.InvariantCulture);
}
