namespace BosFlow.Cli.Running;

/// <summary>Where the pictures and the report of a run lie.</summary>
/// <param name="MapsFolder">Absolute path of the folder with the maps.</param>
/// <param name="ReportPath">Absolute path of the report.</param>
internal sealed record RenderedRun(string MapsFolder, string ReportPath);
