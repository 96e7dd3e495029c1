"""Published methods: kernels, the same sums step by step, and their published examples."""
