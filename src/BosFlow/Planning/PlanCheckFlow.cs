namespace BosFlow.Planning;

/// <summary>Whether a flow fits into a rig.</summary>
internal static class PlanCheckFlow
{
    /// <summary>Refuses what cannot stand between lens and board or does not fit into the view.</summary>
    /// <exception cref="ConfigurationException">It does not fit; one sentence for each problem.</exception>
    public static void ThrowIfImpossible(PlanPoint point, FlowOptics? flow)
    {
        IReadOnlyList<string> problems = Problems(point, flow);
        if (problems.Count > 0)
            throw new ConfigurationException(problems);
    }

    /// <summary>Everything that does not fit, one sentence each.</summary>
    public static IReadOnlyList<string> Problems(PlanPoint point, FlowOptics? flow)
    {
        if (flow is null)
            return [];
        var problems = new List<string>();
        PlanRequest request = point.Request;
        double room = Math.Min(request.Rig.LensToFlowMetres, request.Rig.FlowToBackgroundMetres);
        if (flow.HalfDepthMetres >= room)
            problems.Add(FormattableString.Invariant($"The flow reaches {flow.HalfDepthMetres * 1e3:F0} mm from its middle along the line of sight, as far as the lens or the board, {room * 1e3:F0} mm away; move it or them."));
        double view = Math.Max(request.Camera.PictureWidth, request.Camera.PictureHeight) * point.FlowScale;
        if (request.Flow is ExpectedFlow.Jet jet && jet.NozzleDiameterMetres >= view)
            problems.Add(FormattableString.Invariant($"The nozzle of {jet.NozzleDiameterMetres * 1e3:F1} mm is wider than the view at the flow, {view * 1e3:F1} mm; move the camera away or take a shorter lens."));
        else if (2 * flow.SizeMetres >= view && request.Flow is not ExpectedFlow.Jet)
            problems.Add(FormattableString.Invariant($"The flow of {2 * flow.SizeMetres * 1e3:F1} mm is wider than the view at its place, {view * 1e3:F1} mm; move the camera away or take a shorter lens."));
        return problems;
    }
}
