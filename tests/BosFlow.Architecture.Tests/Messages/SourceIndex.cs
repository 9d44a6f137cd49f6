using BosFlow.TestKit;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace BosFlow.Architecture.Tests.Messages;

/// <summary>The parsed sources of the program: which expressions a name stands for, as far as the text alone tells.</summary>
internal sealed class SourceIndex
{
    private readonly ILookup<string, MethodDeclarationSyntax> methods;
    private readonly ILookup<string, InvocationExpressionSyntax> calls;

    private SourceIndex(IReadOnlyList<SyntaxTree> trees)
    {
        Trees = trees;
        methods = Nodes<MethodDeclarationSyntax>().ToLookup(method => method.Identifier.Text);
        calls = Nodes<InvocationExpressionSyntax>().ToLookup(NameOf);
    }

    /// <summary>One tree a file; its path is absolute.</summary>
    public IReadOnlyList<SyntaxTree> Trees { get; }

    /// <summary>Parses every file below src.</summary>
    public static SourceIndex OfProgram() => new([.. SourceTree.Files("src").Select(file =>
        CSharpSyntaxTree.ParseText(File.ReadAllText(file), new CSharpParseOptions(LanguageVersion.Preview), file))]);

    /// <summary>An index of one text, for tests.</summary>
    /// <param name="text">C# source.</param>
    /// <param name="path">Path relative to the repository.</param>
    public static SourceIndex Of(string text, string path) => new([CSharpSyntaxTree.ParseText(text, path: Repository.PathOf(path))]);

    /// <summary>Every node of a kind.</summary>
    /// <typeparam name="T">The kind.</typeparam>
    public IEnumerable<T> Nodes<T>()
        where T : SyntaxNode => Trees.SelectMany(tree => tree.GetRoot().DescendantNodes().OfType<T>());

    /// <summary>What a call returns: the results of the method of this name in the same file, else of the only one of this name.</summary>
    /// <param name="call">The call.</param>
    /// <returns>Empty where the method is not known.</returns>
    public IReadOnlyList<ExpressionSyntax> Method(InvocationExpressionSyntax call)
    {
        MethodDeclarationSyntax[] all = [.. methods[NameOf(call)].Where(method => method.ReturnType.ToString() is "string" or "string?")];
        MethodDeclarationSyntax[] near = [.. all.Where(method => method.SyntaxTree == call.SyntaxTree)];
        return near.Length > 0 ? [.. near.SelectMany(Results)] : all.Length == 1 ? [.. Results(all[0])] : [];
    }

    /// <summary>What a name stands for: a local variable's or constant's value, or what the callers of the method give as its parameter.</summary>
    /// <param name="name">The name.</param>
    /// <returns>Empty where it is not known.</returns>
    public IReadOnlyList<ExpressionSyntax> Value(IdentifierNameSyntax name)
    {
        string text = name.Identifier.Text;
        if (name.Ancestors().OfType<MethodDeclarationSyntax>().FirstOrDefault() is { } method)
        {
            int parameter = method.ParameterList.Parameters.IndexOf(p => p.Identifier.Text == text && p.Type?.ToString() is "string" or "string?");
            if (parameter >= 0)
                return [.. Arguments(method, parameter)];
            if (Declared(method, text) is { } local)
                return [local];
        }

        return name.Ancestors().OfType<TypeDeclarationSyntax>().FirstOrDefault() is { } type && Declared(type, text) is { } field ? [field] : [];
    }

    /// <summary>The expressions that a member returns or yields.</summary>
    /// <param name="member">The member.</param>
    public static IEnumerable<ExpressionSyntax> Results(MemberDeclarationSyntax member)
    {
        ArrowExpressionClauseSyntax? arrow = member switch
        {
            MethodDeclarationSyntax method => method.ExpressionBody,
            PropertyDeclarationSyntax property => property.ExpressionBody,
            _ => null,
        };
        if (arrow is not null)
            return [arrow.Expression];
        return member.DescendantNodes(node => node is not LambdaExpressionSyntax).Select(node => node switch
        {
            ReturnStatementSyntax { Expression: { } result } => result,
            YieldStatementSyntax { Expression: { } result } => result,
            _ => null,
        }).OfType<ExpressionSyntax>();
    }

    /// <summary>The last part of the name of what is called.</summary>
    /// <param name="call">The call.</param>
    public static string NameOf(InvocationExpressionSyntax call) => call.Expression switch
    {
        MemberAccessExpressionSyntax member => member.Name.Identifier.Text,
        MemberBindingExpressionSyntax member => member.Name.Identifier.Text,
        SimpleNameSyntax simple => simple.Identifier.Text,
        _ => string.Empty,
    };

    private IEnumerable<ExpressionSyntax> Arguments(MethodDeclarationSyntax method, int parameter)
    {
        bool isPrivate = method.Modifiers.Any(SyntaxKind.PrivateKeyword) || method.Modifiers.Count == 0;
        return calls[method.Identifier.Text]
            .Where(call => !isPrivate || call.SyntaxTree == method.SyntaxTree)
            .Where(call => call.ArgumentList.Arguments.Count == method.ParameterList.Parameters.Count)
            .Select(call => call.ArgumentList.Arguments[parameter].Expression)
            .Where(argument => !method.Span.Contains(argument.Span) || method.SyntaxTree != argument.SyntaxTree);
    }

    private static ExpressionSyntax? Declared(SyntaxNode scope, string name) => scope
        .DescendantNodes()
        .OfType<VariableDeclaratorSyntax>()
        .FirstOrDefault(variable => variable.Identifier.Text == name)?.Initializer?.Value;
}
