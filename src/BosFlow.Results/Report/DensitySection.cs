using System.Globalization;
using BosFlow.Density;
using BosFlow.Pipeline;
using BosFlow.Results.Maps;

namespace BosFlow.Results.Report;

/// <summary>The report's section on density and temperature.</summary>
internal static class DensitySection
{
    public static void Add(Html page, RunSummary summary, IReadOnlyList<RunPicture> pictures)
    {
        if (summary.Density is not { } density)
            return;
        page.Heading(2, density.Fields.Any(f => f.Name == "temperature") ? "Density and temperature" : "Density");
        if (DensityFinding.Of(density) is { } finding)
        {
            foreach (string sentence in DensityWords.Sentences(finding, summary.Scale?.FlowMetresPerPixel))
                page.Paragraph(sentence);
        }

        if (density.Axis is { } axis)
            page.Paragraph(Axis(axis));
        foreach (RunPicture picture in pictures.Where(p => p.Topic == PictureTopic.Density))
            page.Picture(picture.Png, picture.Title, picture.Caption);
        if (density.Budget is { } budget)
            AddBudget(page, budget);
        if (density.Checks.Count > 0)
        {
            page.Heading(3, "Checks of the data against the assumptions");
            page.Table(["Check", "Value", "Sound data give", "Passes"], density.Checks.Select(c => (IReadOnlyList<string>)[c.Name, Together($"{Figures.Text(c.Value)} {UnitText.Readable(c.Unit)}".TrimEnd()), c.Expected, c.Passes ? "yes" : "NO"]));
        }

        if (density.Fields.Any(f => f.Name == "temperature"))
            page.Heading(3, "Before you use a temperature").List(ReportCautions.Temperature);
    }

    private static void AddBudget(Html page, UncertaintyBudget budget)
    {
        bool withTemperature = double.IsFinite(budget.TemperatureKelvin);
        page.Heading(3, "Uncertainty budget");
        page.Paragraph(
            $"At {DensityWords.Pixels(budget.X, budget.Y)}, where the density differs most from the surroundings: density {Figures.WithSigma(budget.DensityKgM3, budget.SigmaDensityKgM3, "kg m⁻³")}" +
            $"{(withTemperature ? $", temperature {Figures.WithSigma(budget.TemperatureKelvin, budget.SigmaTemperatureKelvin, "K")}" : string.Empty)}. " +
            "Every line is one standard uncertainty; together they are the root of the sum of squares. The share is that of the density's variance. What is not stated is missing in the total: state it in the case, and the total covers it.");
        string density = Together("Density (kg m⁻³)");
        string[] head = withTemperature ? ["Source", "Input", density, Together("Temperature (K)"), "Share"] : ["Source", "Input", density, "Share"];
        page.Table(head, budget.Lines.Select(line => Row(budget, line, withTemperature)));
    }

    private static IReadOnlyList<string> Row(UncertaintyBudget budget, BudgetLine line, bool withTemperature)
    {
        string density = line.IsStated ? Together(Figures.Text(line.DensityKgM3)) : "not stated";
        string temperature = line.IsStated ? Figures.Text(line.TemperatureKelvin) : "not stated";
        string share = Together(BudgetShares.Text(budget, line));
        return withTemperature ? [line.Source, line.Input, density, temperature, share] : [line.Source, line.Input, density, share];
    }

    // A number stays on one line with its unit.
    private static string Together(string text) => text.Replace(' ', '\u00a0');

    private static string Axis(AxisEstimate axis)
    {
        string place = string.Create(CultureInfo.InvariantCulture, $"through x = {axis.X:0.00} px, y = {axis.Y:0.00} px at {axis.DirectionDegrees:0.00}\u00b0").Replace('-', '\u2212') + " (counter-clockwise from the right)";
        string asymmetry = double.IsFinite(axis.AsymmetryShare) ? $" The mirrored sides of the displacement differ by {Figures.Text(100 * axis.AsymmetryShare)} % of its RMS." : string.Empty;
        return axis.IsFound
            ? $"The axis was found from the symmetry of the displacement: {place}, with a standard uncertainty of {Figures.Text(axis.SigmaAcrossPixels)} px across it and {Figures.Text(axis.SigmaDirectionDegrees)}\u00b0 in direction.{asymmetry}"
            : $"The axis was given by the case: {place}.{asymmetry}";
    }
}
